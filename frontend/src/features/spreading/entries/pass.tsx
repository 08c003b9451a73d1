/** A pass of a job in words, and what was looked at while it was walked. */
import { area, mass } from "../../../format";
import { sayZones } from "../../../records/log/named";
import type { Words } from "../../../records/log/registry";
import {
  joined,
  number,
  PATTERNS,
  sayDial,
  sayUsed,
  thingsOf,
  weight,
  words,
  yes,
} from "../../../records/log/words";
import { leftOut } from "../../../records/pass-history";
import { OnTheWay } from "./on-the-way";

const MEASURED = { scale: "by scale", level: "by the level in the hopper", handfuls: "by handfuls" };

export const pass: Words = {
  brief: (entry, system) =>
    joined([
      `pass ${entry.body["number"]}`,
      `dial ${sayDial(entry.body)}`,
      sayUsed(entry.body, system),
      sayZones(entry.zoneIds),
      leftOut(entry) && "ignored",
    ]),
  facts: (entry, system) => {
    const { body } = entry;
    return [
      ...thingsOf(body),
      ...number(body["number"], "Pass", (at) => (body["passes"] ? `${at} of ${body["passes"]}` : String(at))),
      ...words(sayDial(body), "Dial"),
      ...number(body["area_m2"], "Area covered", (m2) => area(m2, system).text),
      ...words(body["pattern"], "Pattern", PATTERNS),
      ...number(body["start_kg"], "Before", (kg) => mass(kg, system).text),
      ...number(body["added_kg"], "Added on the way", (kg) => mass(kg, system).text),
      ...weight(body["left_kg"], body["left_typed"], "Left after", system),
      ...number(body["used_kg"], "Used", (kg) => mass(kg, system).text),
      ...words(body["measured"], "Measured", MEASURED),
      ...yes(body["ran_out"], "Ran out early"),
      ...yes(body["nothing_came"], "Nothing came out"),
      ...yes(body["damp"], "Product was damp: not used for later dials"),
      ...yes(leftOut(entry), "Ignored"),
    ];
  },
  Detail: ({ entry }) => <OnTheWay body={entry.body} />,
};
