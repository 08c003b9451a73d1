/**
 * A server that has forgotten what it acknowledged (S11): restored from a backup, or failed over with a loss. The
 * phone sends again all it has kept of the last 30 days beside what waits, under a new incarnation; what the server
 * still knows comes back as a duplicate.
 */
import { NO_SUMS } from "../core/digest";
import { isHole, leftMarked, marked, withoutVerdict } from "../core/outbox";
import type { Op, State } from "../core/records";
import { newId, randomHex } from "../core/uuid7";
import type { AckedOp, AckedRow, BookDb } from "../db";
import { eraOf } from "../state";

const KEPT_MS = 30 * 24 * 60 * 60_000;
/** How many are let go with one answer: one answer must not take long. */
const MOST_PRUNED = 50;

export interface Times {
  /** The server's, undefined where it did not say. */
  server: number | undefined;
  phone: number;
}

/** Inside a transaction with `acked`: keeps what the server acknowledged. */
export async function keepAcked(db: BookDb, done: readonly Op[], times: Times): Promise<void> {
  const ops = done.filter((op) => !isHole(op)).map(marked);
  if (ops.length === 0) return;
  await db.acked.put({ op: newId(), at: times.server ?? times.phone, mine: times.phone, ops });
}

/** The acknowledged ops of a row. */
export function ackedOps(row: AckedRow | AckedOp): Op[] {
  if ("ops" in row) return row.ops;
  const { at: _at, mine: _mine, ...op } = row;
  return [op];
}

/** Inside a transaction with `acked`: whether the server has acknowledged this op. Reads all of them: not for every save. */
export async function isAcked(db: BookDb, id: string): Promise<boolean> {
  const held = db.acked.filter((row) => ackedOps(row).some((op) => op.op === id));
  return (await held.limit(1).toArray()).length > 0;
}

/**
 * Inside a transaction with `acked`: lets go what was acknowledged 30 days ago by the server's clock and by this
 * phone's. Either may be wrong by years (F25, F27); both at once, by the same, they are not.
 */
export async function pruneAcked(db: BookDb, times: Times): Promise<void> {
  if (times.server === undefined) return;
  const old = await db.acked
    .where("at")
    .below(times.server - KEPT_MS)
    .filter((row) => row.mine < times.phone - KEPT_MS)
    .limit(MOST_PRUNED)
    .toArray();
  await db.acked.bulkDelete(old.map((row) => row.op));
}

/**
 * Inside a transaction with `outbox`, `acked` and `meta`: everything kept is to be sent again, in the order it was
 * entered, and the book fetched again from the start. Numbers that carry nothing are not needed in a new incarnation.
 */
export async function refilled(db: BookDb, state: State, epoch: string | undefined): Promise<State> {
  const waiting = await db.outbox.toArray();
  const acked = (await db.acked.toArray()).flatMap(ackedOps);
  const known = new Set(waiting.map((op) => op.op));
  const fixed = leftMarked(waiting, state.sent ?? 0);
  const ops = [
    ...acked.filter((op) => !known.has(op.op)).map(asOp),
    ...fixed.filter((op) => !isHole(op)).map(withoutVerdict),
  ].sort((a, b) => (a.hlc < b.hlc ? -1 : a.hlc > b.hlc ? 1 : a.dseq - b.dseq));
  await db.outbox.bulkDelete(waiting.filter(isHole).map((op) => op.op));
  await db.outbox.bulkPut(ops.map((op, at) => ({ ...op, dseq: at + 1 })));
  await db.acked.clear();
  const line = { incarnation: newId(), node: randomHex(8), dseq: ops.length, sent: 0, confirmed: 0 };
  return { ...(await anew(db, state)), ...line, ...(epoch ? { epoch } : {}) };
}

/** Inside a transaction with `meta`: the book is to be fetched again whole; its rows stay readable meanwhile. */
export async function anew(db: BookDb, state: State): Promise<State> {
  await db.meta.delete("boot");
  return { ...state, cursor: 0, digest: NO_SUMS, count: 0, era: eraOf(state) + 1, sweep: true };
}

const asOp = (op: Op): Op => ({ ...withoutVerdict(op), again: true });
