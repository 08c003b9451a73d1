/** A mow in words. */
import { height } from "../../../format";
import { sayZones } from "../../../records/log/named";
import type { Words } from "../../../records/log/registry";
import { joined, number, words } from "../../../records/log/words";

const CLIPPINGS = { left: "left on the grass", collected: "collected" };

export const mow: Words = {
  brief: ({ body, zoneIds }, system) =>
    joined([
      sayZones(zoneIds),
      body["cut_height_mm"] && `cut to ${height(body["cut_height_mm"], system).text}`,
    ]),
  facts: ({ body }, system) => [
    ...number(body["height_before_mm"], "Height before", (mm) => height(mm, system).text),
    ...number(body["cut_height_mm"], "Cut to", (mm) => height(mm, system).text),
    ...words(body["clippings"], "Clippings", CLIPPINGS),
  ],
  form: {
    title: "Log a mow",
    save: "Save the mow",
    saved: "Mow logged.",
    fields: {
      zone_ids: { missing: "Choose at least one zone." },
      occurred_at: { label: "When" },
      height_before_mm: {},
      cut_height_mm: { beside: true },
      clippings: { none: "Not recorded", choices: { left: "Left", collected: "Collected" } },
      note: {},
    },
  },
};
