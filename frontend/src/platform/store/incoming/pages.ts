/** Records from the server come to rest: pages of changes and of a first fetch, and single buckets of a repair. */
import { canonical } from "../core/canonical";
import { addSums, recordSums, type Sums, subtractSums } from "../core/digest";
import { receive } from "../core/hlc";
import { type ChangeRecord, keyOf, type State } from "../core/records";
import type { BaseRow, BookDb } from "../db";
import { eraOf } from "../state";
import type { ParkedRow } from "../types";

/** Up to this many rows are asked for one by one. */
const SINGLY = 8;

export interface Stored {
  /** The counters with digest, count and stamps brought up to date; not yet written. */
  state: State;
  /** What stands in the table now, of every record that came. */
  records: Map<string, ChangeRecord>;
  /** Those of them that were not in the table as they came. */
  changed: string[];
}

/**
 * Inside a transaction with `base` and `parked`. A record of this era that is newer than the one that came stays: a
 * page of a first fetch may be older than what was pulled meanwhile. With `trusted`, what came replaces everything up
 * to that number: a repair.
 */
export async function storeRecords(
  db: BookDb,
  state: State,
  came: readonly ChangeRecord[],
  trusted = 0,
): Promise<Stored> {
  const newest = newestOf(came);
  const before = state.count === 0 ? new Map<string, BaseRow>() : await held(db, [...newest.keys()]);
  const puts: BaseRow[] = [];
  const changed: string[] = [];
  let { digest, count } = state;
  for (const [key, record] of newest) {
    const old = sameEra(before.get(key), state);
    // The same number is the same content (S10): an earlier page or answer has brought it.
    if (old && trusted === 0 && old.seq === record.seq) continue;
    changed.push(key);
    if (old && old.seq > Math.max(record.seq, trusted)) {
      newest.set(key, old);
      continue;
    }
    digest = replaced(digest, old, record);
    if (!old && count !== undefined) count += 1;
    puts.push({ key, record, era: eraOf(state) });
  }
  await db.base.bulkPut(puts);
  await dropSettled(db, newest);
  const counted = count === undefined ? {} : { count };
  return { state: { ...state, ...counted, digest, hlc: heard(state, came) }, records: newest, changed };
}

/** A record can stand twice in a page only if the server erred; the later seq then wins here too. */
function newestOf(came: readonly ChangeRecord[]): Map<string, ChangeRecord> {
  const newest = new Map<string, ChangeRecord>();
  for (const record of [...came].sort((a, b) => a.seq - b.seq))
    newest.set(keyOf(record.t, record.id), record);
  return newest;
}

/**
 * The rows of these keys. New entries' keys lie side by side, with few or none there yet: asking once which there are
 * takes a fraction of asking for each. Where much else lies between them each is asked for.
 */
async function held(db: BookDb, keys: readonly string[]): Promise<Map<string, BaseRow>> {
  const there = keys.length > SINGLY ? await keysAmong(db, keys) : keys;
  const rows = await db.base.bulkGet([...there]);
  return new Map(rows.filter((row) => row !== undefined).map((row) => [row.key, row]));
}

async function keysAmong(db: BookDb, keys: readonly string[]): Promise<readonly string[]> {
  const sorted = [...keys].sort();
  const range = db.base.where("key").between(sorted[0], sorted.at(-1), true, true);
  const most = 2 * keys.length;
  const there = await range.limit(most).primaryKeys();
  if (there.length === most) return keys;
  const wanted = new Set(keys);
  return there.filter((key) => wanted.has(key));
}

function sameEra(row: BaseRow | undefined, state: State): ChangeRecord | undefined {
  return row && eraOf(row) === eraOf(state) ? row.record : undefined;
}

function replaced(sums: Sums, old: ChangeRecord | undefined, record: ChangeRecord): Sums {
  const without = old ? subtractSums(sums, recordSums(old.t, old.id, old.seq)) : sums;
  return addSums(without, recordSums(record.t, record.id, record.seq));
}

function heard(state: State, came: readonly ChangeRecord[]): State["hlc"] {
  let hlc = state.hlc;
  for (const record of came) {
    for (const group of Object.values(record.groups)) if (group.hlc) hlc = receive(hlc, group.hlc);
    // What is written to settle a conflict must be later than what lost, whatever this phone's clock says.
    const lost = record.t === "conflict" ? record.body?.lost?.hlc : undefined;
    if (typeof lost === "string") hlc = receive(hlc, lost);
  }
  return hlc;
}

/**
 * What the server had set aside and has since taken into the book (an update taught it the kind, a keeper accepted it)
 * is no longer set aside here. An op is made whole or not at all, so one item of it is enough to know.
 */
async function dropSettled(db: BookDb, records: ReadonlyMap<string, ChangeRecord>): Promise<void> {
  if (records.size === 0 || (await db.parked.count()) === 0) return;
  const parked = (await db.parked.toArray()).filter((row) => row.where === "parked");
  const settled = parked.filter((row) => row.m.some((m) => isIn(row, m, records.get(keyOf(m.t, m.id)))));
  await db.parked.bulkDelete(settled.map((row) => row.op));
}

function isIn(row: ParkedRow, m: ParkedRow["m"][number], record: ChangeRecord | undefined): boolean {
  if (!record) return false;
  if (Object.values(record.groups).some((group) => group.version === row.op)) return true;
  return m.body !== undefined && !m.set && canonical(record.body) === canonical(m.body);
}

/**
 * Inside a transaction with `base` and `meta`: the book has been fetched whole, so what earlier eras left and this one
 * did not bring goes. Returns the counters, not yet written, and the records gone.
 */
export async function settleEra(db: BookDb, state: State): Promise<{ state: State; swept: string[] }> {
  await db.meta.delete("boot");
  if (!state.sweep) return { state, swept: [] };
  const left = await db.base.filter((row) => eraOf(row) < eraOf(state)).toArray();
  const swept = left.map((row) => row.key);
  await db.base.bulkDelete(swept);
  const { sweep: _sweep, ...settled } = state;
  return { state: settled, swept };
}
