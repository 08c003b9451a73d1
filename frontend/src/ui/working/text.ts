/** Writes the numbers of a working in the reader's units: the engine's names carry the unit as their ending. */
import {
  area,
  date,
  degreeDays,
  degrees,
  depth,
  height,
  length,
  mass,
  nitrogen,
  percent,
  rate,
  type Said,
  type System,
  speed,
  temperature,
} from "../../format";

type Sayer = (value: number, system: System) => Said;

/** Longest endings first: `_kg_m2` must be seen before `_m2`. */
const ENDINGS: readonly (readonly [string, string, Sayer])[] = [
  ["n_kg_m2", "kg N/m2", nitrogen],
  ["_kg_m2", "kg/m2", rate],
  ["_m_s", "m/s", speed],
  ["error_c", "K", degrees],
  ["offset_c", "K", degrees],
  ["width_c", "K", degrees],
  ["sd_c", "K", degrees],
  ["_c", "C", temperature],
  ["degree_days", "C day", degreeDays],
  ["_m2", "m2", area],
  ["_kg", "kg", mass],
  ["depth_mm", "mm deep", depth],
  ["_mm", "mm", height],
  ["_m", "m", length],
  ["_share", "share", (value) => percent(value)],
];

/** A bare number, to six significant figures: enough to check the working by hand. */
function plain(value: number): string {
  return String(Number(value.toPrecision(6)));
}

function sayWith(value: unknown, say: (value: number) => string): string {
  if (typeof value === "number") return say(value);
  if (Array.isArray(value)) return value.map((item) => sayWith(item, say)).join(", ");
  if (value === null || value === undefined) return "not given";
  if (typeof value === "boolean") return value ? "yes" : "no";
  return typeof value === "object" ? JSON.stringify(value) : date(String(value));
}

/** Days within words, as a person writes them: "Fed 2026-05-02" → "Fed 2 May 2026". */
export function sayDates(text: string): string {
  return text.replace(/\b\d{4}-\d\d-\d\d\b/g, (day) => date(day));
}

/** The name without its unit; what an ending says besides stays: "likely_error_c" → "likely error". */
function stemOf(name: string, ending: string): string {
  if (ending === "n_kg_m2") return name.replace(/n_kg_m2$/, "nitrogen");
  return ending.startsWith("_") ? name.slice(0, -ending.length) : name.replace(/_(?:c|mm)$/, "");
}

/** "net_kg", 21.77 → "net", "48 lb". */
export function sayNumber(name: string, value: unknown, system: System): { name: string; text: string } {
  const found = ENDINGS.find(([ending]) => name.endsWith(ending));
  if (!found) return { name: spaced(name), text: sayWith(value, plain) };
  const [ending, , say] = found;
  return { name: spaced(stemOf(name, ending)), text: sayWith(value, (number) => say(number, system).text) };
}

/** The result of a step, by the unit the engine states. */
export function sayResult(result: unknown, unit: string, system: System): string {
  const found = ENDINGS.find(([, own]) => own === unit);
  if (found) return sayWith(result, (number) => found[2](number, system).text);
  const text = sayWith(result, plain);
  return unit && unit !== "1" && unit !== "date" ? `${text} ${unit}` : text;
}

function spaced(name: string): string {
  return name.replaceAll("_", " ").trim() || "value";
}
