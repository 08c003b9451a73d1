/** What somebody noticed, in words. */
import { sayZones } from "../../../records/log/named";
import type { Words } from "../../../records/log/registry";
import { joined, words } from "../../../records/log/words";

const LONGEST = 90;

function shortened(text: string): string {
  return text.length > LONGEST ? `${text.slice(0, LONGEST - 2).trimEnd()} …` : text;
}

export const observation: Words = {
  brief: ({ body, zoneIds }) => joined([sayZones(zoneIds), shortened(String(body["text"] ?? ""))]),
  facts: ({ body }) => words(body["text"], "What you noticed"),
  form: {
    title: "Add observation",
    save: "Save",
    saved: "Saved in the log.",
    fields: {
      text: { label: "What you noticed", missing: "Enter a few words." },
      zone_ids: { label: "Zones (leave blank for the whole yard)" },
      occurred_at: { label: "When" },
    },
    photos: true,
  },
};
