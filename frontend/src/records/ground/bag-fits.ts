/** Sets of zones that one bag just covers (`label.match`): what is asked, and how a set is said. */
import { mass, percent, type System } from "../../format";
import type { Args, Value } from "../../platform/engine/types";

export type BagFit = Value<"label.match">["choices"][number];

interface Ground {
  id: string;
  name: string;
  area_m2: number;
}

/** As many zones as the engine tries in sets, and as few as belong in a list to tap. */
const MOST_ZONES = 30;
export const MOST_SHOWN = 3;

/** Null where the bag's coverage is not known, or there is no ground, or more than the engine tries. */
export function matchArgs(
  { net_kg, coverage_m2 }: { net_kg?: number | undefined; coverage_m2?: number | undefined },
  zones: readonly Ground[],
): Args<"label.match"> | null {
  const measured = zones.filter(({ area_m2 }) => area_m2 > 0).map(({ id, area_m2 }) => ({ id, area_m2 }));
  if (!coverage_m2 || !measured.length || measured.length > MOST_ZONES) return null;
  return { coverage_m2, zones: measured, ...(net_kg ? { net_kg } : {}) };
}

/** "Street verge + Swing patch". */
export function sayZones({ ids }: BagFit, zones: readonly Ground[]): string {
  return ids.map((id) => zones.find((zone) => zone.id === id)?.name ?? "a zone").join(" + ");
}

/** Under a thousandth of a bag nobody can weigh. */
const LEAST_SHARE = 0.001;

/** What a set asks for besides: product to keep back, or that it gets a little under the label's rate. */
export function sayRest({ left_kg, left_share, rate_share }: BagFit, system: System): string {
  if (left_share > LEAST_SHARE && left_kg !== null) return `Keep ${mass(left_kg, system).text} in the bag.`;
  if (1 - rate_share > LEAST_SHARE) return `Uses it all, at ${percent(rate_share).text} of the label rate.`;
  return "Uses it all.";
}
