/** This phone's numbered line of ops towards the server: what goes out next, and counting anew (S5, S8). */
import { hashed, hole, isHole, type Limits, nextBatch, renumbered, rewound } from "./core/outbox";
import type { Op, State } from "./core/records";
import { newId, randomHex } from "./core/uuid7";
import type { BookDb, LiveRow } from "./db";
import { refilled } from "./incoming/refill";
import { putLive, readBoot, readState } from "./state";
import type { ParkedRow, Verdict } from "./types";
import { rebuilt } from "./writing";

export interface Push {
  state: State;
  /** Whether the whole book is being fetched. */
  booting: boolean;
  ops: (Op & { hash: string })[];
}

/** Of the outbox: what the server has yet to judge, lowest number first. */
export const unjudgedIn = (db: BookDb, after?: number) =>
  after === undefined
    ? db.outbox.where("[judged+dseq]").below([1])
    : db.outbox.where("[judged+dseq]").between([0, after], [1], false, false);

/** Whether anything is yet to be judged. Not a count: an engine counts by walking them all. */
export const anyUnjudged = async (db: BookDb): Promise<boolean> =>
  (await unjudgedIn(db).limit(1).toArray()).length > 0;

/**
 * The next push. How far its numbers go is noted, durably, before they leave: from then on its ops cannot be withdrawn.
 * With `after`, of what lies beyond that number: the rest is on the server, its verdicts are being stored.
 */
export async function takePush(db: BookDb, limits: Limits, after?: number): Promise<Push> {
  return db.transaction("rw", db.outbox, db.meta, async () => {
    const known = await readState(db);
    const due = limits.ops > 0 ? await unjudgedIn(db, after).limit(limits.ops).toArray() : [];
    const ops = nextBatch(due, limits).map(hashed);
    const sent = Math.max(known.sent ?? 0, ops.at(-1)?.dseq ?? 0);
    const state = { ...known, sent };
    if (sent !== known.sent) await db.meta.put(state);
    return { state, ops, booting: (await readBoot(db)) !== undefined };
  });
}

/** After a round: the counters, and whether anything is yet to be judged. */
export async function standing(db: BookDb): Promise<{ state: State; left: boolean }> {
  return db.transaction("r", db.outbox, db.meta, async () => ({
    state: await readState(db),
    left: await anyUnjudged(db),
  }));
}

/**
 * The server lacks ops from this number on: they go out again. Where the phone holds that number no longer, the server
 * has lost what it had acknowledged, and everything kept goes out again (S11).
 */
export async function rewind(db: BookDb, from: number, incarnation: string): Promise<void> {
  await db.transaction("rw", db.outbox, db.acked, db.meta, async () => {
    const state = await readState(db);
    if (state.incarnation !== incarnation) return;
    const again = rewound(await db.outbox.toArray(), from, state.dseq);
    if (again) await db.outbox.bulkPut(again);
    else await db.meta.put(await refilled(db, state, undefined));
  });
}

/** The server saw this phone's numbers used twice (a restored or cloned phone): count anew (S8). */
export async function reincarnate(db: BookDb, incarnation: string): Promise<void> {
  await db.transaction("rw", db.outbox, db.meta, async () => {
    const state = await readState(db);
    if (state.incarnation === incarnation) await db.meta.put(await remade(db, state));
  });
}

/** Inside a transaction with `outbox`: the counters of a new incarnation, its waiting ops numbered from 1. */
export async function remade(db: BookDb, state: State): Promise<State> {
  const ops = renumbered(await db.outbox.toArray(), state.sent);
  await db.outbox.bulkPut(ops);
  const dseq = ops.reduce((last, op) => Math.max(last, op.dseq), 0);
  return { ...state, incarnation: newId(), node: randomHex(8), dseq, sent: 0, confirmed: 0 };
}

/** Sets a lone op aside that no request carrying it can get through (S9): listed, exportable, its number a hole. */
export async function quarantine(db: BookDb, id: string, why: Verdict, now: string): Promise<LiveRow[]> {
  return db.transaction("rw", db.base, db.live, db.outbox, db.parked, db.meta, async () => {
    const op = await db.outbox.get(id);
    if (!op || isHole(op)) return [];
    await db.outbox.delete(id);
    await db.outbox.add(hole(op, newId()));
    await db.parked.put(parkedRow(op, "unsendable", why, now));
    const put = await putLive(db, await readState(db), await rebuilt(db, op.keys));
    await db.meta.put(put.state);
    return put.written;
  });
}

export function parkedRow(
  op: Op,
  where: ParkedRow["where"],
  why: Verdict | null | undefined,
  at: string,
): ParkedRow {
  const said = why ?? { code: "unsaid", message: "The server set this aside without saying why." };
  return { op: op.op, dseq: op.dseq, where, why: said, at, m: op.m };
}

/** The id the server gave this phone. Another than before begins another line: nothing of it is on the server yet. */
export async function setDevice(db: BookDb, device: string): Promise<void> {
  await db.transaction("rw", db.outbox, db.meta, async () => {
    const state = await readState(db);
    if (state.device === device) return;
    const line = state.device === undefined ? state : await remade(db, state);
    await db.meta.put({ ...line, device });
  });
}
