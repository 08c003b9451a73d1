/** A mow in words, and what it took off. */
import { count, height, type System } from "../../../format";
import type { Entry } from "../../../records/entries";
import { named, sayZones } from "../../../records/log/named";
import type { Fact, Words } from "../../../records/log/registry";
import { heightOf, joined, number, words, yes } from "../../../records/log/words";
import { late } from "../../../ui/parts/late";
import { DIRECTIONS } from "../model/mows";
import { EXCEPTIONS, MOW_FORM } from "./mow-words";

const CLIPPINGS = { left: "left on the grass", collected: "collected" };
const READ = { ruler: "by ruler", over_notch: "by eye, about one notch over the last cut" };

const minutes = (n: number): string => count(n, "minute").text;

/** With the likely error of the way it was read. */
function sayRead(
  { height_before_by: by, height_before_error_mm: error }: Entry["body"],
  system: System,
): Fact[] {
  const off = typeof error === "number" ? `, ± ${height(error, system).text}` : "";
  return by ? [["Read", `${READ[by as keyof typeof READ] ?? by}${off}`]] : [];
}

export const mow: Words = {
  brief: ({ body, zoneIds }, system) =>
    joined([
      sayZones(zoneIds),
      body["cut_height_mm"] && `cut to ${height(body["cut_height_mm"], system).text}`,
      body["notch"] && `notch ${body["notch"]}`,
      body["minutes"] && minutes(body["minutes"]),
    ]),
  facts: ({ body }, system) => [
    ...heightOf(body["height_before_mm"], body["height_before_typed"], "Height before", system),
    ...sayRead(body, system),
    ...heightOf(body["cut_height_mm"], body["cut_height_typed"], "Cut to", system),
    ...words(body["notch"], "Notch"),
    ...words(body["mower_id"] && named(body["mower_id"], "not on this phone"), "Mower"),
    ...words(body["exception"], "More than a third", EXCEPTIONS),
    ...words(body["direction"], "Direction", DIRECTIONS),
    ...yes(body["double_cut"], "Cut twice, crosswise"),
    ...number(body["minutes"], "Time", minutes),
    ...words(body["clippings"], "Clippings", CLIPPINGS),
    ...heightOf(body["height_after_mm"], body["height_after_typed"], "Height after", system),
  ],
  form: MOW_FORM,
  Detail: late(() => import("../screens/mow-detail").then(({ MowDetail }) => MowDetail)),
};
