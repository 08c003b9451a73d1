/** Log entries as screens read them: the immutable body with its overlay groups laid on top. */
import { daysBetween } from "../format";
import type { Args, Value } from "../platform/engine/types";
import type { Row } from "../platform/store/types";
import { KINDS } from "./kinds.gen";
import { kindOf } from "./log/registry";
import { soundRow, unusable } from "./reading";

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
  /** Its own fields, each inside its limits. */
  body: Record<string, any>;
  /** Fields that could not be used; sums leave such an entry out, and it is named (records/sick.ts). */
  sick: readonly string[];
  row: Row;
}

/** A row is replaced when it changes, so what was read of it holds as long as it does. */
const readBefore = new WeakMap<Row, Entry>();

export function entryOf(row: Row): Entry {
  const found = readBefore.get(row) ?? readEntry(row);
  readBefore.set(row, found);
  return found;
}

function readEntry(row: Row): Entry {
  const sound = soundRow(row);
  const body = (sound.body ?? {}) as Record<string, any>;
  const overlay = (group: string): Record<string, any> => sound.groups[group]?.value ?? {};
  const firstAt = String(body["occurred_at"] ?? row.received_at ?? "");
  const entry = {
    id: row.id,
    kind: String(body["kind"] ?? "unknown"),
    at: String(overlay("when")["occurred_at"] ?? firstAt),
    firstAt,
    by: body["by"] ?? row.by,
    zoneIds: Array.isArray(body["zone_ids"]) ? body["zone_ids"] : [],
    struck: overlay("void")["void"] === true,
    note: String(overlay("note")["note"] ?? ""),
    pending: row.pending,
    body,
    sick: unusable(row).map(({ name }) => name),
    row: sound,
  };
  // Read while the row is looked over, part by part.
  instantOf(entry);
  return entry;
}

const KNOWN = new Set<string>(Object.keys(KINDS.entry.bodies ?? {}));

/** Clocks may disagree by their offsets, never by more than a day: mows this close to a zone's latest are all kept. */
const DAY_MS = 86_400_000;

/** More than a day ahead it has not been done; the engine counts it nowhere (`record.totals`). */
export const isAhead = ({ at }: Pick<Entry, "at">, today: string): boolean =>
  // By the signs alone for nearly all of a long log; where clocks stand apart a day is not yet ahead.
  at > today && at.slice(0, 10) > today.slice(0, 10) && daysBetween(today, at) > 1;

const readAt = new WeakMap<Entry, number>();

/** The moment of an entry in ms since 1970, read once; NaN where it cannot be read. */
export function instantOf(entry: Entry): number {
  const ms = readAt.get(entry) ?? Date.parse(entry.at);
  readAt.set(entry, ms);
  return ms;
}

let lastDay = { day: "", ms: Number.NaN };

/** Not more than so many days back by the calendar; by its moment alone for nearly all of a long log. */
export function isWithin(entry: Entry, day: string, days: number): boolean {
  if (lastDay.day !== day) lastDay = { day, ms: Date.parse(day) };
  // Wherever it was written, its own calendar is no more than a day from this phone's.
  if (instantOf(entry) < lastDay.ms - (days + 2) * DAY_MS) return false;
  return !(daysBetween(entry.at, day) > days);
}

/** The moment of the latest mow of each zone, in ms. */
function latestMows(entries: readonly Entry[]): Map<string, number> {
  const latest = new Map<string, number>();
  for (const entry of entries) {
    if (kindOf(entry.kind)?.totals !== "latest") continue;
    for (const id of entry.zoneIds)
      latest.set(id, Math.max(latest.get(id) ?? Number.NEGATIVE_INFINITY, instantOf(entry)));
  }
  return latest;
}

/**
 * What `record.totals` is asked: only entries that can change a figure the phone shows, so that a long book stays quick.
 * All walks and counts; of the mows those that may be a zone's last. Nothing struck out, sick or dated ahead, no observations, no passes
 * (their number is not shown), and no kind that only a later build knows.
 */
export function totalsOf(entries: readonly Entry[], today: string): Args<"record.totals"> {
  const known = entries.filter(
    (entry) => KNOWN.has(entry.kind) && !entry.struck && !entry.sick.length && !isAhead(entry, today),
  );
  const latest = latestMows(known);
  const mayBeLast = (entry: Entry) =>
    // A moment that cannot be read is passed on, for the engine to say so.
    entry.zoneIds.some((id) => !(instantOf(entry) < (latest.get(id) ?? 0) - DAY_MS));
  const counts = (entry: Entry) => {
    const asked = kindOf(entry.kind)?.totals;
    return asked === "latest" ? mayBeLast(entry) : asked === "all";
  };
  return { entries: known.filter(counts).map(totalsEntry), today };
}

export type TotalsEntry = Args<"record.totals">["entries"][number];

/** An entry as `record.totals` takes it. */
export function totalsEntry(entry: Entry): TotalsEntry {
  const found = told.get(entry) ?? tell(entry);
  told.set(entry, found);
  return found;
}

/** An entry is read anew when its row changes, so what was made of it holds as long as it does. */
const told = new WeakMap<Entry, TotalsEntry>();

function tell(entry: Entry): TotalsEntry {
  const { cut_height_mm, product_id, sort, used_kg, left_kg, spread_id, zones, bags, net_kg, bought_kg } =
    entry.body;
  const bought = entry.kind === "bought" ? { bags, net_kg, bought_kg } : {};
  return {
    id: entry.id,
    kind: entry.kind,
    occurred_at: entry.at,
    zone_ids: entry.zoneIds,
    void: entry.struck,
    ...given({ cut_height_mm, product_id, sort, used_kg, left_kg, spread_id, zones, ...bought }),
  };
}

export type Given<T> = { [K in keyof T]?: Exclude<T[K], undefined | null | ""> };

/** Leaves out what was not given, so that "not given" never turns into a null the engine must guess about. */
export function given<T extends Record<string, unknown>>(fields: T): Given<T> {
  return Object.fromEntries(
    Object.entries(fields).filter(([, value]) => value !== undefined && value !== null && value !== ""),
  ) as Given<T>;
}

export type Totals = Value<"record.totals">;
export type ZoneTotals = Totals["zones"][string];
export type ProductTotals = Totals["products"][string];

/** A zone the log does not name yet. */
export const NOTHING_YET: ZoneTotals = {
  last_mow: null,
  last_feed: null,
  n_year_kg_m2: 0,
  passes: 0,
  n_unknown_feeds: 0,
};
