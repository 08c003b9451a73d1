/** What a person should know before product goes down: fed too lately, or fed at all lately. */
import { daysBetween } from "../format";
import type { Entry } from "./entries";
import type { Product } from "./shed-facts";
import type { WalkZone } from "./walk-types";

export interface Warning {
  zone: WalkZone;
  /** "interval": inside the label's least days between applications; "lately": any product, for the person to judge. */
  kind: "interval" | "lately";
  days: number;
  /** Day of the earlier application. */
  on: string;
  /** Days the label wants between two, where that is what speaks. */
  wants?: number;
  pending: boolean;
}

/** Applications this recent are shown even where the label states no interval; common practice, not a limit. */
const LATELY_DAYS = 21;

function lastWalk(entries: readonly Entry[], zoneId: string, productId?: string): Entry | undefined {
  return entries
    .filter((entry) => entry.kind === "walk" && !entry.struck && entry.zoneIds.includes(zoneId))
    .filter((entry) => productId === undefined || entry.body["product_id"] === productId)
    .sort((a, b) => b.at.slice(0, 10).localeCompare(a.at.slice(0, 10)) || b.id.localeCompare(a.id))[0];
}

function warningFor(
  zone: WalkZone,
  product: Product,
  entries: readonly Entry[],
  today: string,
): Warning | null {
  const same = lastWalk(entries, zone.id, product.id);
  const wants = product.interval_days;
  if (same && wants !== undefined) {
    const days = daysBetween(same.at, today);
    if (days < wants) return { zone, kind: "interval", days, on: same.at, wants, pending: same.pending };
  }
  const any = lastWalk(entries, zone.id);
  const days = any ? daysBetween(any.at, today) : Number.POSITIVE_INFINITY;
  return any && days < LATELY_DAYS ? { zone, kind: "lately", days, on: any.at, pending: any.pending } : null;
}

export function warningsFor(
  zones: readonly WalkZone[],
  product: Product | undefined,
  entries: readonly Entry[],
  today: string,
): Warning[] {
  if (!product) return [];
  return zones.flatMap((zone) => warningFor(zone, product, entries, today) ?? []);
}
