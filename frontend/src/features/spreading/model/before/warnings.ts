/** What a person should know before product goes down: zones that had something lately. Rules are the engine's. */
import { daysBetween } from "../../../../format";
import type { Entry } from "../../../../records/entries";
import type { SpreadZone } from "../types";

export interface Warning {
  zone: SpreadZone;
  days: number;
  /** Day of the earlier application. */
  on: string;
  pending: boolean;
}

/** Applications this recent are shown even where no rule speaks against another; common practice, not a limit. */
const LATELY_DAYS = 21;

function lastJob(entries: readonly Entry[], zoneId: string): Entry | undefined {
  return entries
    .filter((entry) => entry.kind === "spread" && !entry.struck && entry.zoneIds.includes(zoneId))
    .sort((a, b) => b.at.slice(0, 10).localeCompare(a.at.slice(0, 10)) || b.id.localeCompare(a.id))[0];
}

function warningFor(zone: SpreadZone, entries: readonly Entry[], today: string): Warning | null {
  const any = lastJob(entries, zone.id);
  const days = any ? daysBetween(any.at, today) : Number.POSITIVE_INFINITY;
  return any && days < LATELY_DAYS ? { zone, days, on: any.at, pending: any.pending } : null;
}

export function warningsFor(
  zones: readonly SpreadZone[],
  entries: readonly Entry[],
  today: string,
): Warning[] {
  return zones.flatMap((zone) => warningFor(zone, entries, today) ?? []);
}
