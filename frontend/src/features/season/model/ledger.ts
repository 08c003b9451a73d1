/** Two lines of nitrogen a zone: what is put down this year, and what of it the soil has set free; the year's aim beside. */
import { daysBetween } from "../../../format";
import { type Engine, type Followed, follow } from "../../../platform/engine/ask";
import type { Answer, Args, Step, Value } from "../../../platform/engine/types";
import type { Row } from "../../../platform/store/types";
import { yearRows } from "../../../records/ceilings";
import { type Entry, given } from "../../../records/entries";
import { groupOf } from "../../../records/groups";
import { doneJobs } from "../../../records/limits/check";
import type { Product } from "../../../records/products";

type Feed = Args<"feeding.available">["feeds"][number];
export type SoilDay = Args<"feeding.available">["days"][number];

export interface LedgerLine {
  zone_id: string;
  /** Nitrogen set free by now; null while no soil warmth tells. */
  free_kg_m2: number | null;
  left_kg_m2: number | null;
  aim_kg_m2: number | null;
}

export interface LedgerAsking {
  zones: readonly Row[];
  entries: readonly Entry[];
  products: readonly Product[];
  /** Of every day up to today; none where nothing tells of them. */
  soil: readonly SoilDay[];
  level: "low" | "middle" | "high";
  clippings: boolean;
  today: string;
}

/** The first day of the calendar year, as the table of the year counts. */
export const firstOf = (today: string): string => `${today.slice(0, 4)}-01-01`;

/** Days from the first of the year to today. */
export const daysBack = (today: string): number => daysBetween(firstOf(today), today);

/** Feeds of this year, a row a zone; where nobody entered the kind of nitrogen it counts as quick. */
function feedsOf({ zones, entries, products, today }: LedgerAsking): Feed[] {
  const ids = zones.map(({ id }) => id);
  return doneJobs(entries, today, ids).flatMap(({ date, zone, product, n_kg_m2, slow_n_share }) => {
    if (!n_kg_m2 || date < firstOf(today)) return [];
    const source = products.find(({ id }) => id === product)?.source ?? "soluble";
    const slow = slow_n_share ?? (source === "natural" ? 1 : 0);
    return [{ zone, applied: date, n_kg_m2, slow_n_share: slow, source }];
  });
}

function aimArgs({ zones, level, clippings }: LedgerAsking): Args<"feeding.yearly_aim"> {
  const asked = zones.map((row) => {
    const { grass } = groupOf("zone", row, "grass");
    const { sun } = groupOf("zone", row, "site");
    return { id: row.id, ...given({ grass, sun }), year_rows: yearRows(grass) };
  });
  return { zones: asked, level, clippings };
}

interface Asked {
  ids: string[];
  aim: Args<"feeding.yearly_aim">;
  free: Args<"feeding.available"> | null;
}

export interface Ledger {
  lines: LedgerLine[];
  /** Without soil warmth nobody can tell what is free. */
  soilKnown: boolean;
}

function line(
  id: string,
  aims: Value<"feeding.yearly_aim">,
  free: Value<"feeding.available"> | undefined,
): LedgerLine {
  const found = free?.zones.find(({ zone_id }) => zone_id === id);
  const none = free ? 0 : null;
  return {
    zone_id: id,
    free_kg_m2: found?.free_kg_m2 ?? none,
    left_kg_m2: found?.left_kg_m2 ?? none,
    aim_kg_m2: aims.zones.find(({ zone_id }) => zone_id === id)?.n_year_kg_m2 ?? null,
  };
}

export function followLedger(engine: Engine, asking: () => LedgerAsking | null): Followed<Answer<Ledger>> {
  async function work({ ids, aim, free }: Asked): Promise<Answer<Ledger>> {
    const aims = await engine.call("feeding.yearly_aim", aim);
    if (aims.error) return aims;
    const told = free ? await engine.call("feeding.available", free) : undefined;
    if (told?.error) return told;
    const working: Step[] = [...(told?.working ?? []), ...aims.working];
    const lines = ids.map((id) => line(id, aims.value, told?.value));
    return { ...aims, working, value: { lines, soilKnown: told !== undefined } };
  }
  return follow(work, () => {
    const now = asking();
    if (!now?.zones.length) return null;
    const feeds = feedsOf(now);
    const known = now.soil.some(({ date }) => date === now.today);
    return {
      ids: now.zones.map(({ id }) => id),
      aim: aimArgs(now),
      free: known ? { feeds, days: now.soil, today: now.today } : null,
    };
  });
}
