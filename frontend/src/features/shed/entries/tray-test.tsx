/** A tray test in words, and its pass as it was caught. */
import { length, percent, type System } from "../../../format";
import type { Entry } from "../../../records/entries";
import { named, nameOf } from "../../../records/log/named";
import type { Fact, Words } from "../../../records/log/registry";
import { joined, lengthOf, number, PATTERNS, sayDial, thingsOf, words } from "../../../records/log/words";
import { TrayPass } from "../../../ui/drawing";
import { Button } from "../../../ui/parts";

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

/** The pass of a tray test as it was caught, and the way to its spreader. */
function Drawn({ entry: { body } }: { entry: Entry }) {
  const { catches_g, typed, spreader_id } = body;
  const caught = Array.isArray(catches_g) ? catches_g.filter((one) => typeof one === "number") : [];
  const texts: string[] = Array.isArray(typed?.catches) ? typed.catches.map(String) : caught.map(String);
  return (
    <section class="section" aria-labelledby="caught">
      <h2 id="caught">What the trays caught</h2>
      {caught.length ? <TrayPass catches={caught} texts={texts} /> : null}
      {nameOf(spreader_id) ? (
        <div>
          <Button href={`/shed/spreader/${spreader_id}`}>Open the spreader</Button>
        </div>
      ) : null}
    </section>
  );
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
  Detail: Drawn,
};
