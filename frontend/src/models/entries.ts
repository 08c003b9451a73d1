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

/** What `record.totals` is asked: entries of a kind that only a later build knows are left out of it. */
export function totalsOf(rows: readonly Row[], today: string): { entries: object[]; today: string } {
  const entries = rows.map(entryOf).filter((entry) => KNOWN.has(entry.kind));
  return { entries: entries.map(totalsEntry), today };
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
  passes: number;
}

/** A zone the log does not name yet. */
export const NOTHING_YET: ZoneTotals = { last_mow: null, last_feed: null, n_year_kg_m2: 0, passes: 0 };

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
