/** What the engine refused, in a sentence with what is allowed: its facts are SI, a person reads their own units. */

import type { System } from "../format";
import { allowedIs, scaleOf } from "../format/limit";
import type { EngineError } from "../platform/engine/types";

/** The unit a name of the engine carries at its end; longer endings first. */
const ENDINGS: readonly (readonly [ending: string, unit: string])[] = [
  ["_kg_m2", "kg/m2"],
  ["_kg_m3", "kg/m3"],
  ["_percent", "%"],
  ["_error_c", "K"],
  ["_offset_c", "K"],
  ["_sd_c", "K"],
  ["_share", "share"],
  ["_hours", "h"],
  ["_days", "day"],
  ["_m_s", "m/s"],
  ["_deg", "deg"],
  ["_kg", "kg"],
  ["_c", "C"],
  ["_m2", "m2"],
  ["_m3", "m3"],
  ["_mm", "mm"],
  ["_min", "min"],
  ["_px", "px"],
  ["_m", "m"],
  ["_s", "s"],
  ["_bags", "bags"],
];

/** The last part of an argument's path: "parts[1].length_m" → "length_m". */
export const lastName = (path: string): string => path.split(".").at(-1)?.split("[")[0] ?? "";

function unitOfName(path: string): string | undefined {
  const last = lastName(path);
  if (/(^|_)n_([a-z]+_)*kg_m2$/.test(last)) return "kg N/m2";
  return ENDINGS.find(([ending]) => `_${last}`.endsWith(ending))?.[1];
}

/** Codes whose low and high are the range of the number named. */
const RANGED = new Set(["out_of_range", "wrong_type", "missing_argument", "beyond_any_label", "over_whole"]);

/** What is allowed instead, in the unit of the field (`key`) or the person's own; empty where no range says it. */
export function allowedInstead(error: EngineError, system: System, key?: string): string {
  const { code, name = "", low, high } = error;
  if (code === "wrong_count") return allowedIs({ low, high }, scaleOf(undefined, system), system);
  const scale = scaleOf(unitOfName(name), system, key);
  if (code === "over_label") return allowedIs({ high }, scale, system);
  return RANGED.has(code) ? allowedIs({ low, high }, scale, system) : "";
}

/** "The length is above the highest value allowed. Allowed is 0.03281 to 16,400 ft." */
export function sayRefusal(error: EngineError | undefined, system: System, key?: string): string {
  if (!error) return "";
  return [error.message, allowedInstead(error, system, key)].filter(Boolean).join(" ");
}
