/** The steps of the outbox, as functions: no clock, no chance, no storage. */
import { canonical } from "./canonical";
import { indexed, type Op } from "./records";
import { sha256Hex } from "./sha256";

export interface Limits {
  ops: number;
  bytes: number;
}

export const PUSH_LIMITS: Limits = { ops: 200, bytes: 256 * 1024 };

/** An op as it travels. */
export type SentOp = Required<Pick<Op, "op" | "dseq" | "hlc" | "schema" | "m" | "hash">>;

export function byNumber(a: Op, b: Op): number {
  return a.dseq - b.dseq;
}

export function hashOf(op: Op): string {
  return sha256Hex(canonical({ op: op.op, dseq: op.dseq, hlc: op.hlc, schema: op.schema, m: op.m }));
}

/** The op with its hash fixed. */
export const hashed = (op: Op): Op & { hash: string } => ({ ...op, hash: op.hash ?? hashOf(op) });

/** The op with its hash fixed, marked as possibly on the server, whatever number it gets. */
export const marked = (op: Op): Op & { hash: string } => ({ ...hashed(op), sent: true });

/** Whether it may be on the server; `sent` is the highest number that has left. */
export const hasLeft = (op: Op, sent: number): boolean => op.sent || op.dseq <= sent;

/** Ops the server has not judged yet, lowest number first. */
export function unjudged(ops: readonly Op[]): Op[] {
  return ops.filter((op) => op.seq === undefined).sort(byNumber);
}

/** The next push: a run from the front, within the limits, but never empty while something waits. */
export function nextBatch(ops: readonly Op[], limits: Limits): Op[] {
  const batch: Op[] = [];
  let bytes = 0;
  for (const op of unjudged(ops).slice(0, Math.max(1, limits.ops))) {
    bytes += new TextEncoder().encode(JSON.stringify(op)).length;
    if (batch.length > 0 && bytes > limits.bytes) break;
    batch.push(op);
  }
  return batch;
}

/** After a refused push: half of it; 0 when a single op was refused alone. */
export function halved(count: number): number {
  return Math.floor(count / 2);
}

/**
 * Takes back an op that was never sent: later ops move up one number (none of them was sent
 * either, ops go out from the front), and what they were based on becomes what it was based on.
 * Undefined when it is not there or may already be on the server: `sent` is the highest number that has left.
 */
export function withoutOp(ops: readonly Op[], id: string, sent = 0): Op[] | undefined {
  const gone = ops.find((op) => op.op === id);
  if (!gone || hasLeft(gone, sent)) return undefined;
  return ops.filter((op) => op !== gone).map((op) => (op.dseq > gone.dseq ? rebased(op, gone) : op));
}

function rebased(op: Op, gone: Op): Op {
  const m = op.m.map((mutation) => {
    if (!mutation.base) return mutation;
    const before = gone.m.find((other) => other.t === mutation.t && other.id === mutation.id)?.base;
    const base = Object.fromEntries(
      Object.entries(mutation.base).map(([group, version]) => [
        group,
        version === gone.op ? (before?.[group] ?? null) : version,
      ]),
    );
    return { ...mutation, base };
  });
  return { ...op, dseq: op.dseq - 1, m };
}

/** A number that will never carry its op (S9, F56): an empty op takes its place, so that later ops flow. */
export function hole(op: Op, id: string): Op {
  return indexed({ op: id, dseq: op.dseq, hlc: op.hlc, schema: op.schema, m: [], sent: false });
}

export const isHole = (op: Op): boolean => op.m.length === 0;

/** The ops before they get other numbers: those that have left keep their hashes, to be known as the same ones. */
export const leftMarked = (ops: readonly Op[], sent: number): Op[] =>
  ops.map((op) => (hasLeft(op, sent) ? marked(op) : op));

/**
 * A new incarnation (S8, fork_detected): what is not judged yet counts 1, 2, 3 … again, in the
 * same order and under the same ids and hashes. Judged ops that still wait for the cursor keep
 * their place in front by numbers below 1. `sent` is the highest old number that has left; of the new none has.
 */
export function renumbered(ops: readonly Op[], sent = 0): Op[] {
  const known = leftMarked(ops, sent);
  const judged = known.filter((op) => op.seq !== undefined).sort(byNumber);
  return [
    ...judged.map((op, at) => ({ ...op, dseq: at + 1 - judged.length })),
    ...unjudged(known).map((op, at) => ({ ...op, dseq: at + 1 })),
  ];
}

/**
 * The server lacks everything from this number on: ops from there are sent again. Undefined when
 * the phone no longer holds that number, or never gave it: then only a new incarnation helps.
 */
export function rewound(ops: readonly Op[], from: number, last: number): Op[] | undefined {
  if (from === last + 1) return [...ops];
  if (!ops.some((op) => op.dseq === from)) return undefined;
  return ops.map((op) => (op.dseq >= from ? withoutVerdict(op) : op));
}

/** An op to be judged again: its verdict came from a server that has since lost it. */
export function withoutVerdict(op: Op): Op {
  const { seq: _seq, ...rest } = op;
  return { ...rest, judged: 0 };
}
