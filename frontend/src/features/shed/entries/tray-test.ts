/** A tray test in words; its pass as it was caught is drawn where the entry is opened. */
import { length, percent, type System } from "../../../format";
import type { Entry } from "../../../records/entries";
import { named } from "../../../records/log/named";
import type { Fact, Words } from "../../../records/log/registry";
import { joined, lengthOf, number, PATTERNS, sayDial, thingsOf, words } from "../../../records/log/words";
import { late } from "../../../ui/parts/late";

function sayWidest(body: Entry["body"], system: System): string {
  const limit =
    typeof body["cv_limit_share"] === "number" ? percent(body["cv_limit_share"]).text : "the limit";
  if (typeof body["widest_m"] !== "number") return `no distance within ${limit}`;
  return `swath up to ${length(body["widest_m"], system).text} within ${limit}`;
}

/** Catches are shown as they were written. */
function caughtFacts({ typed, catches_g }: Entry["body"]): Fact[] {
  const written = Array.isArray(typed?.catches) ? typed.catches : catches_g;
  if (!Array.isArray(written)) return [];
  return [["Caught, left to right", `${written.join(", ")} ${typed?.unit ?? "g"}`]];
}

export const trayTest: Words = {
  brief: ({ body }, system) => joined([named(body["spreader_id"], "a spreader"), sayWidest(body, system)]),
  facts: ({ body }, system) => [
    ...thingsOf(body),
    ...words(sayDial(body), "Dial"),
    ...words(body["pattern"], "Walking pattern", PATTERNS),
    ...caughtFacts(body),
    ...lengthOf(body["tray_spacing_m"], body["typed"]?.tray_spacing, "Tray spacing", system),
    ...number(body["cv_limit_share"], "Unevenness allowed", (share) => percent(share).text),
    ...number(body["widest_m"], "Widest swath within it", (metres) => length(metres, system).text),
  ],
  Detail: late(() => import("../screens/tray-caught").then(({ TrayCaught }) => TrayCaught)),
};
