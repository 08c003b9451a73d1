/**
 * A server that has forgotten what it acknowledged (S11): restored from a backup, or failed over with a loss. The
 * phone sends again all it has kept of the last 30 days beside what waits, under a new incarnation; what the server
 * still knows comes back as a duplicate.
 */
import { NO_SUMS } from "./core/digest";
import { isHole, withoutVerdict } from "./core/outbox";
import type { Op, State } from "./core/records";
import { newId, randomHex } from "./core/uuid7";
import type { AckedOp, BookDb } from "./db";
import { eraOf } from "./state";

const KEPT_MS = 30 * 24 * 60 * 60_000;
/** How many are let go with one answer: one answer must not take long. */
const MOST_PRUNED = 500;

export interface Times {
  /** The server's, undefined where it did not say. */
  server: number | undefined;
  phone: number;
}

/** Inside a transaction with `acked`: keeps what the server acknowledged. */
export async function keepAcked(db: BookDb, ops: readonly Op[], times: Times): Promise<void> {
  const rows = ops
    .filter((op) => !isHole(op))
    .map((op): AckedOp => ({ ...op, at: times.server ?? times.phone, mine: times.phone }));
  await db.acked.bulkPut(rows);
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
  const acked = await db.acked.toArray();
  const known = new Set(waiting.map((op) => op.op));
  const ops = [
    ...acked.filter((op) => !known.has(op.op)).map(asOp),
    ...waiting.filter((op) => !isHole(op)).map(withoutVerdict),
  ].sort((a, b) => (a.hlc < b.hlc ? -1 : a.hlc > b.hlc ? 1 : a.dseq - b.dseq));
  await db.outbox.bulkDelete(waiting.filter(isHole).map((op) => op.op));
  await db.outbox.bulkPut(ops.map((op, at) => ({ ...op, dseq: at + 1 })));
  await db.acked.bulkDelete(acked.map((op) => op.op));
  const line = { incarnation: newId(), node: randomHex(8), dseq: ops.length, confirmed: 0 };
  return { ...(await anew(db, state)), ...line, ...(epoch ? { epoch } : {}) };
}

/** Inside a transaction with `meta`: the book is to be fetched again whole; its rows stay readable meanwhile. */
export async function anew(db: BookDb, state: State): Promise<State> {
  await db.meta.delete("boot");
  return { ...state, cursor: 0, digest: NO_SUMS, count: 0, era: eraOf(state) + 1, sweep: true };
}

function asOp({ at: _at, mine: _mine, ...op }: AckedOp): Op {
  return { ...withoutVerdict(op), again: true };
}
