/** Log entries as screens read them: the immutable body with its overlay groups laid on top. */
import table from "@fixtures/kinds.json";
import type { Row } from "../store/types";

export interface Entry {
  id: string;
  kind: string;
  /** When it was done: the amended moment, or the one first written. */
  at: string;
  /** The moment first written. */
  firstAt: string;
  by: string | undefined;
  zoneIds: readonly string[];
  struck: boolean;
  note: string;
  pending: boolean;
  body: Record<string, any>;
  row: Row;
}

export function entryOf(row: Row): Entry {
  const body = (row.body ?? {}) as Record<string, any>;
  const firstAt = String(body["occurred_at"] ?? row.received_at ?? "");
  return {
    id: row.id,
    kind: String(body["kind"] ?? "unknown"),
    at: String(row.groups["when"]?.value?.occurred_at ?? firstAt),
    firstAt,
    by: body["by"] ?? row.by,
    zoneIds: Array.isArray(body["zone_ids"]) ? body["zone_ids"] : [],
    struck: row.groups["void"]?.value?.void === true,
    note: String(row.groups["note"]?.value?.note ?? ""),
    pending: row.pending,
    body,
    row,
  };
}

const KNOWN = new Set(table.kinds.entry.body.kind.choices);
const ADD_UP = new Set(["walk", "stock_count"]);

/** Clocks may disagree by their offsets, never by more than a day: mows this close to a zone's latest are all kept. */
const DAY_MS = 86_400_000;

/** The moment of the latest mow of each zone, in ms. */
function latestMows(entries: readonly Entry[]): Map<string, number> {
  const latest = new Map<string, number>();
  for (const { kind, at, zoneIds } of entries) {
    if (kind !== "mow") continue;
    for (const id of zoneIds)
      latest.set(id, Math.max(latest.get(id) ?? Number.NEGATIVE_INFINITY, Date.parse(at)));
  }
  return latest;
}

/**
 * What `record.totals` is asked: only entries that can change a figure the phone shows, so that a long book stays quick.
 * All walks and counts; of the mows those that may be a zone's last. Nothing struck out, no observations, no passes
 * (their number is not shown), and no kind that only a later build knows.
 */
export function totalsOf(entries: readonly Entry[], today: string): { entries: object[]; today: string } {
  const known = entries.filter(({ kind, struck }) => KNOWN.has(kind) && !struck);
  const latest = latestMows(known);
  const mayBeLast = ({ at, zoneIds }: Entry) =>
    // A moment that cannot be read is passed on, for the engine to say so.
    zoneIds.some((id) => !(Date.parse(at) < (latest.get(id) ?? 0) - DAY_MS));
  const counts = (entry: Entry) => (entry.kind === "mow" ? mayBeLast(entry) : ADD_UP.has(entry.kind));
  return { entries: known.filter(counts).map(totalsEntry), today };
}

/** An entry as `record.totals` takes it. */
export function totalsEntry(entry: Entry): Record<string, unknown> {
  const { cut_height_mm, product_id, sort, used_kg, left_kg, walk_id, zones } = entry.body;
  return {
    id: entry.id,
    kind: entry.kind,
    occurred_at: entry.at,
    zone_ids: entry.zoneIds,
    void: entry.struck,
    ...given({ cut_height_mm, product_id, sort, used_kg, left_kg, walk_id, zones }),
  };
}

/** Leaves out what was not given, so that "not given" never turns into a null the engine must guess about. */
export function given<T extends Record<string, unknown>>(fields: T): Partial<T> {
  return Object.fromEntries(
    Object.entries(fields).filter(([, value]) => value !== undefined && value !== null && value !== ""),
  ) as Partial<T>;
}

export interface ZoneTotals {
  last_mow: string | null;
  last_feed: string | null;
  n_year_kg_m2: number;
  /** Feedings of this year whose nitrogen nobody entered. */
  n_unknown_feeds?: number;
}

/** A zone the log does not name yet. */
export const NOTHING_YET: ZoneTotals = { last_mow: null, last_feed: null, n_year_kg_m2: 0 };

export interface ProductTotals {
  used_since_count_kg: number | null;
  counted_kg: number | null;
  counted_at: string | null;
  left_kg: number | null;
}

export interface Totals {
  zones: Record<string, ZoneTotals>;
  products: Record<string, ProductTotals>;
}
