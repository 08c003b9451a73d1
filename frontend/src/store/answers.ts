/**
 * What syncing does to the store. Each step is one transaction: a page of changes, its cursor, the
 * digest and the verdicts on this phone's ops come to rest together or not at all (S15, F11).
 */

import { addSums, digestText, NO_SUMS, recordSums, type Sums, subtractSums, sumAll } from "./core/digest";
import { receive } from "./core/hlc";
import {
  byNumber,
  hole,
  isHole,
  type Limits,
  marked,
  nextBatch,
  renumbered,
  rewound,
  withoutVerdict,
} from "./core/outbox";
import { type ChangeRecord, isParked, keyOf, type Op, type OpResult, type State } from "./core/records";
import { newId, randomHex } from "./core/uuid7";
import type { BookDb, LiveRow } from "./db";
import { putLive, readState } from "./state";
import type { ParkedRow, Verdict } from "./types";
import { rebuilt } from "./writing";

/** A parsed answer of the server to a push and pull. */
export interface SyncAnswer {
  server_time: string;
  epoch?: string;
  results: OpResult[];
  acked_dseq: number;
  changes: ChangeRecord[];
  cursor: number;
  head: number;
  has_more: boolean;
  digest?: string | null;
  need_from?: number | null;
  fork_detected?: boolean | null;
  /** The cursor is beyond the book: the server was restored. Pull again from 0, keep the outbox. */
  reset?: boolean | null;
}

export interface Push {
  state: State;
  ops: (Op & { hash: string })[];
}

/** The next push. Its ops are marked as sent, durably, before they leave: from then on they cannot be withdrawn. */
export async function takePush(db: BookDb, limits: Limits): Promise<Push> {
  return db.transaction("rw", db.outbox, db.meta, async () => {
    const state = await readState(db);
    if (!(await db.meta.get("state"))) await db.meta.put(state);
    const ops = limits.ops > 0 ? nextBatch(await db.outbox.toArray(), limits).map(marked) : [];
    await db.outbox.bulkPut(ops);
    return { state, ops };
  });
}

/**
 * Stores an answer: verdicts, changes, cursor and digest in one transaction; waiting ops again on
 * top. `asked` is the state the question was made from. When another tab has moved the cursor
 * meanwhile, this page is old news and only the verdicts are taken: an older copy of a record must
 * not come back over a newer one (F7, P3).
 */
export async function takeAnswer(
  db: BookDb,
  given: SyncAnswer,
  asked: State,
  now: string,
): Promise<LiveRow[]> {
  return db.transaction("rw", db.base, db.live, db.outbox, db.parked, db.meta, async () => {
    const state = await readState(db);
    const fresh = state.cursor === asked.cursor;
    const answer = fresh ? given : { ...given, changes: [], cursor: state.cursor, reset: false };
    const sameLine = state.incarnation === asked.incarnation;
    const before = (await db.outbox.toArray()).map(answer.reset ? withoutVerdict : same);
    const judged = await storeVerdicts(db, before, answer, now);
    const changed = await storeChanges(db, answer.changes);
    const keys = [...judged.touched, ...answer.changes.map(({ t, id }) => keyOf(t, id))];
    const put = await putLive(db, state, await rebuilt(db, keys, judged.ops));
    await db.meta.put({
      ...put.state,
      hlc: heard(state, answer.changes),
      cursor: answer.cursor,
      confirmed: sameLine ? Math.max(state.confirmed, answer.acked_dseq) : state.confirmed,
      digest: addSums(state.digest, changed),
      ...(answer.epoch ? { epoch: answer.epoch } : {}),
    });
    return put.written;
  });
}

const same = (op: Op): Op => op;

/** The ops still waiting after the verdicts, and the records whose rows those change. */
async function storeVerdicts(db: BookDb, before: Op[], answer: SyncAnswer, now: string) {
  const verdicts = new Map(answer.results.map((result) => [result.op, result]));
  const parked: ParkedRow[] = [];
  const done: Op[] = [];
  const ops: Op[] = [];
  for (const op of before) {
    const result = verdicts.get(op.op);
    const aside = isParked(result);
    if (aside) parked.push(parkedRow(op, "parked", result?.why, now));
    const seq = result && !aside ? (result.seq ?? answer.cursor) : op.seq;
    if (aside || (seq !== undefined && seq <= answer.cursor)) done.push(op);
    else ops.push(seq === undefined ? op : { ...op, seq, judged: 1 });
  }
  await db.outbox.bulkDelete(done.map((op) => op.op));
  await db.outbox.bulkPut(answer.reset ? ops : ops.filter((op) => verdicts.has(op.op)));
  await db.parked.bulkPut(parked.filter((row) => row.m.length > 0));
  return { ops, touched: done.flatMap((op) => op.m.map(({ t, id }) => keyOf(t, id))) };
}

function parkedRow(
  op: Op,
  where: ParkedRow["where"],
  why: Verdict | null | undefined,
  at: string,
): ParkedRow {
  const said = why ?? { code: "unsaid", message: "The server set this aside without saying why." };
  return { op: op.op, dseq: op.dseq, where, why: said, at, m: op.m };
}

/** Stores the records; returns what they add to the digest. */
async function storeChanges(db: BookDb, changes: ChangeRecord[]): Promise<Sums> {
  // A record can stand twice in a page only if the server erred; the later seq then wins here too.
  const newest = new Map<string, ChangeRecord>();
  for (const record of [...changes].sort((a, b) => a.seq - b.seq))
    newest.set(keyOf(record.t, record.id), record);
  const keys = [...newest.keys()];
  const before = await db.base.bulkGet(keys);
  let sums = NO_SUMS;
  for (const [at, record] of [...newest.values()].entries()) {
    const old = before[at]?.record;
    if (old) sums = subtractSums(sums, recordSums(old.t, old.id, old.seq));
    sums = addSums(sums, recordSums(record.t, record.id, record.seq));
  }
  await db.base.bulkPut(keys.map((key) => ({ key, record: newest.get(key) as ChangeRecord })));
  return sums;
}

function heard(state: State, changes: ChangeRecord[]) {
  let hlc = state.hlc;
  for (const record of changes) {
    for (const group of Object.values(record.groups ?? {})) if (group.hlc) hlc = receive(hlc, group.hlc);
  }
  return hlc;
}

/** The server lacks ops from this number on: they go out again, under a new incarnation if need be. */
export async function rewind(db: BookDb, from: number): Promise<void> {
  await db.transaction("rw", db.outbox, db.meta, async () => {
    const state = await readState(db);
    const again = rewound(await db.outbox.toArray(), from, state.dseq);
    if (again) await db.outbox.bulkPut(again);
    else await remade(db, state);
  });
}

/** The server saw this phone's numbers used twice (a restored or cloned phone): count anew (S8). */
export async function reincarnate(db: BookDb): Promise<void> {
  await db.transaction("rw", db.outbox, db.meta, async () => remade(db, await readState(db)));
}

async function remade(db: BookDb, state: State): Promise<void> {
  const ops = renumbered(await db.outbox.toArray());
  await db.outbox.bulkPut(ops);
  const dseq = ops.reduce((last, op) => Math.max(last, op.dseq), 0);
  await db.meta.put({ ...state, incarnation: newId(), node: randomHex(8), dseq, confirmed: 0 });
}

/** Sets a lone op aside that no request carrying it can get through (S9): listed, exportable, its number a hole. */
export async function quarantine(db: BookDb, id: string, why: Verdict, now: string): Promise<LiveRow[]> {
  return db.transaction("rw", db.base, db.live, db.outbox, db.parked, db.meta, async () => {
    const op = await db.outbox.get(id);
    if (!op || isHole(op)) return [];
    await db.outbox.delete(id);
    await db.outbox.add(hole(op, newId()));
    await db.parked.put(parkedRow(op, "unsendable", why, now));
    const keys = op.m.map(({ t, id: record }) => keyOf(t, record));
    const state = await readState(db);
    const put = await putLive(db, state, await rebuilt(db, keys, (await db.outbox.toArray()).sort(byNumber)));
    await db.meta.put(put.state);
    return put.written;
  });
}

/** The digest of what is really in the table, not of what was thought to be put there (F52). */
export async function trueDigest(db: BookDb): Promise<string> {
  return db.transaction("rw", db.base, db.meta, async () => {
    const rows = await db.base.toArray();
    const digest = sumAll(rows.map((row) => row.record));
    await db.meta.put({ ...(await readState(db)), digest });
    return digestText(digest);
  });
}

/** Pull everything again from the start. The outbox is not touched; rows stay readable meanwhile (P9). */
export async function startRepull(db: BookDb): Promise<void> {
  await db.transaction("rw", db.meta, async () => {
    await db.meta.put({ ...(await readState(db)), cursor: 0 });
  });
}

export async function setDevice(db: BookDb, device: string | undefined): Promise<void> {
  await db.transaction("rw", db.meta, async () => {
    const { device: _device, ...state } = await readState(db);
    await db.meta.put(device === undefined ? state : { ...state, device });
  });
}
