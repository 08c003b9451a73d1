/** What a person does to the book: save, take back. Each is one strict transaction (S14). */
import contract from "@fixtures/contract.json";
import { plainCopy } from "./core/canonical";
import { formatHlc, tick } from "./core/hlc";
import { byNumber, withoutOp } from "./core/outbox";
import { based, overlay, rebuild, rowOf } from "./core/overlay";
import { type ChangeRecord, indexed, keyOf, type Op, splitKey } from "./core/records";
import { newId } from "./core/uuid7";
import type { BookDb, LiveRow } from "./db";
import { isAcked } from "./incoming/refill";
import { keepPictures } from "./pictures";
import { putLive, readState } from "./state";
import type { Mutation, Picture, Row } from "./types";

export interface Saved {
  op: string;
  written: LiveRow[];
}

/**
 * Writes the records and the op that carries them, with its number and stamp, all or nothing.
 * Resolves only after the transaction is complete and durable. Raises TypeError for what JSON
 * cannot hold, and the database's error when the phone cannot store it; nothing is written then.
 */
export async function saveOp(
  db: BookDb,
  mutations: Mutation[],
  nowMs: number,
  op: string = newId(),
  pictures: readonly Picture[] = [],
): Promise<Saved> {
  const wanted = toBeSaved(mutations);
  return db.transaction("rw", tablesFor(db, pictures), async () => {
    await keepPictures(db, pictures, nowMs);
    return written(db, wanted, nowMs, op);
  });
}

/** As saveOp, for a save that failed with the connection: it may be in the book already, and is not saved twice (P2). */
export async function saveOpAgain(
  db: BookDb,
  mutations: Mutation[],
  nowMs: number,
  op: string,
  pictures: readonly Picture[] = [],
): Promise<Saved> {
  const wanted = toBeSaved(mutations);
  return db.transaction("rw", [...tablesFor(db, pictures), db.acked], async () => {
    if ((await db.outbox.get(op)) || (await isAcked(db, op))) return { op, written: [] };
    await keepPictures(db, pictures, nowMs);
    return written(db, wanted, nowMs, op);
  });
}

/** Pictures are in a table of their own; a save without any does not wait for one that is being sent. */
function tablesFor(db: BookDb, pictures: readonly Picture[]) {
  return [db.live, db.outbox, db.meta, ...(pictures.length > 0 ? [db.photos] : [])];
}

/**
 * Saves what was set aside, as mended, as a new op, and takes the set-aside one away, in one transaction: at no
 * moment are there none or two. Undefined when it is no longer there (another tab was quicker); nothing is saved then.
 */
export async function mendOp(
  db: BookDb,
  parked: string,
  mutations: Mutation[] | undefined,
  nowMs: number,
): Promise<Saved | undefined> {
  const mended = mutations && toBeSaved(mutations);
  return db.transaction("rw", db.live, db.outbox, db.meta, db.parked, async () => {
    const row = await db.parked.get(parked);
    if (!row) return undefined;
    await db.parked.delete(parked);
    const asItWas = () => toBeSaved(row.m.map(({ base: _base, ...mutation }) => mutation));
    return written(db, mended ?? asItWas(), nowMs);
  });
}

function toBeSaved(mutations: Mutation[]): Mutation[] {
  const wanted = combined(plainCopy(mutations, "mutations"));
  if (wanted.length === 0) throw new TypeError("mutations is empty: there is nothing to save");
  return wanted;
}

/** Inside a transaction with `live`, `outbox` and `meta`. */
async function written(db: BookDb, wanted: Mutation[], nowMs: number, op: string = newId()): Promise<Saved> {
  const state = await readState(db);
  const hlc = tick(state.hlc, nowMs);
  const stamp = { op, hlc: formatHlc(hlc, state.node) };
  const rows = await rowsBefore(db, wanted);
  const m = wanted.map((mutation) => {
    const key = keyOf(mutation.t, mutation.id);
    const carried = based(mutation, rows.get(key));
    rows.set(key, overlay(rows.get(key) ?? rowOf(mutation.t, mutation.id, undefined), carried, stamp));
    return carried;
  });
  const dseq = state.dseq + 1;
  await db.outbox.add(indexed({ ...stamp, dseq, schema: contract.schema, m, sent: false }));
  const after = await putLive(db, { ...state, dseq, hlc }, rows);
  await db.meta.put(after.state);
  return { op, written: after.written };
}

/** One item a record: of two writes to one record the later one's groups stand, as if made one after the other. */
function combined(mutations: Mutation[]): Mutation[] {
  const byKey = new Map<string, Mutation>();
  for (const m of mutations) {
    const before = byKey.get(keyOf(m.t, m.id));
    const set = before?.set || m.set ? { set: { ...before?.set, ...m.set } } : {};
    byKey.set(keyOf(m.t, m.id), { ...m, ...before, ...set });
  }
  return [...byKey.values()];
}

async function rowsBefore(db: BookDb, mutations: Mutation[]): Promise<Map<string, Row>> {
  const keys = mutations.map(({ t, id }) => keyOf(t, id));
  const rows = await db.live.bulkGet(keys);
  const found = new Map<string, Row>();
  for (const row of rows) if (row && !row.ghost) found.set(row.key, row);
  return found;
}

/** Takes back an op that was never sent. Undefined when it may already be on the server. */
export async function withdrawOp(db: BookDb, id: string): Promise<LiveRow[] | undefined> {
  return db.transaction("rw", db.base, db.live, db.outbox, db.meta, async () => {
    const gone = await db.outbox.get(id);
    if (!gone) return undefined;
    const state = await readState(db);
    const before = await db.outbox.where("dseq").aboveOrEqual(gone.dseq).toArray();
    const after = withoutOp(before, id, state.sent);
    if (!after) return undefined;
    await db.outbox.delete(id);
    await db.outbox.bulkPut(after);
    const rows = await rebuilt(db, gone.keys);
    const put = await putLive(db, { ...state, dseq: state.dseq - 1 }, rows);
    await db.meta.put(put.state);
    return put.written;
  });
}

/** Inside a transaction with `base` and `outbox`: the rows of these keys, made anew from base and waiting ops. */
export async function rebuilt(
  db: BookDb,
  keys: Iterable<string>,
  known: ReadonlyMap<string, ChangeRecord> = new Map(),
): Promise<Map<string, Row | undefined>> {
  const wanted = [...new Set(keys)];
  const records = new Map(known);
  const unread = wanted.filter((key) => !known.has(key));
  for (const row of await db.base.bulkGet(unread)) if (row) records.set(row.key, row.record);
  const ops = await waitingOn(db, wanted);
  return new Map(
    wanted.map((key) => {
      const { t, id } = splitKey(key);
      return [key, rebuild(t, id, records.get(key), ops.get(key) ?? [])];
    }),
  );
}

/** The waiting ops that touch these records, in their order: looked up, since thousands may wait. */
async function waitingOn(db: BookDb, keys: string[]): Promise<Map<string, Op[]>> {
  const found = new Map<string, Op[]>();
  if (keys.length === 0 || (await db.outbox.limit(1).toArray()).length === 0) return found;
  const ops = new Map((await db.outbox.where("keys").anyOf(keys).toArray()).map((op) => [op.op, op]));
  for (const op of [...ops.values()].sort(byNumber)) {
    for (const key of op.keys) found.set(key, [...(found.get(key) ?? []), op]);
  }
  return found;
}
