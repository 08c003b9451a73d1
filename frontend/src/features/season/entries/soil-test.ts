/** What a lab found in the soil, in words. */
import { percent, type Shown, type System, showTyped, soilContent, type Typed } from "../../../format";
import type { Entry } from "../../../records/entries";
import { sayZones } from "../../../records/log/named";
import type { Words } from "../../../records/log/registry";
import { joined, words } from "../../../records/log/words";

const METHODS = { mehlich_3: "Mehlich 3", bray_1: "Bray 1", olsen: "Olsen", other: "Other" };

type Body = Entry["body"];

/** As typed where that is on record, else in the reader's own units. */
function amount(body: Body, of: "p" | "k", system: System): string | undefined {
  const typed = body[`${of}_typed`] as Typed | undefined;
  if (typed?.amount) return showTyped(typed);
  const mg_kg = body[`${of}_mg_kg`];
  return typeof mg_kg === "number" ? soilContent(mg_kg, system).text : undefined;
}

const plain = (value: unknown): string | undefined => (typeof value === "number" ? String(value) : undefined);
const share = (value: unknown): Shown["text"] | undefined =>
  typeof value === "number" ? percent(value).text : undefined;

export const soilTest: Words = {
  brief: ({ body, zoneIds }, system) => {
    const [ph, p, k] = [plain(body["ph"]), amount(body, "p", system), amount(body, "k", system)];
    const found = [ph && `pH ${ph}`, p && `P ${p}`, k && `K ${k}`].filter(Boolean).join(", ");
    return joined([zoneIds.length ? sayZones(zoneIds) : "", found || "Soil test"]);
  },
  facts: ({ body }, system) => [
    ...words(plain(body["ph"]), "pH"),
    ...words(plain(body["buffer_ph"]), "Buffer pH"),
    ...words(amount(body, "p", system), "Phosphorus, P"),
    ...words(body["p_method"], "Phosphorus method", METHODS),
    ...words(amount(body, "k", system), "Potassium, K"),
    ...words(share(body["organic_share"]), "Organic matter"),
    ...words(body["lab"], "Lab"),
  ],
  form: {
    title: "Add a soil test",
    says: "Copy what the lab sent. Leave blank what it doesn’t say.",
    save: "Save the soil test",
    saved: "Soil test saved.",
    fields: {
      ph: { label: "pH", hint: "Often called “water pH” or “soil pH”." },
      buffer_ph: { label: "Buffer pH", hint: "Says how much lime is needed. Not every lab gives it." },
      p_mg_kg: { label: "Phosphorus, P" },
      p_method: { label: "Phosphorus method", none: "Not said", choices: METHODS },
      k_mg_kg: { label: "Potassium, K" },
      organic_share: { label: "Organic matter, %" },
      lab: { label: "Lab" },
      zone_ids: { label: "Zones (leave blank for the whole yard)" },
      occurred_at: { label: "When the soil was taken" },
      note: { label: "Note", lines: true },
    },
    again: ["p_method", "lab"],
  },
};
