/** What travels and what is kept: change records, ops, the phone's own counters. */
import type { GroupState, SentMutation, Verdict } from "../types";
import type { Sums } from "./digest";
import type { Hlc } from "./hlc";

/** A whole record as the server sent it, fields this build does not know included (S15). */
export interface ChangeRecord {
  seq: number;
  t: string;
  id: string;
  body?: any;
  by?: string | null;
  received_at?: string;
  groups: Record<string, GroupState>;
  [unknown: string]: unknown;
}

/** One op of this phone: made whole or not at all, numbered without gaps per incarnation (S5). */
export interface Op {
  op: string;
  dseq: number;
  hlc: string;
  schema: number;
  m: SentMutation[];
  /** Content hash under the number it was first sent with, kept from when it gets another: a renumbered op
   * stays recognisable as the same one (S8). Without it, it is that of the op as it stands. */
  hash?: string;
  /** True once it may be on the server under an earlier number; of the present numbers State.sent tells. */
  sent: boolean;
  /** The server's verdict came: it is in the household's book at this number. */
  seq?: number;
  /** 1 once the verdict came; beside `seq`, because an absent member cannot be looked up. */
  judged: 0 | 1;
  /** Keys of the records it touches. */
  keys: string[];
  /** 1 for a number that carries nothing (F56). */
  hole?: 1;
  /** Sent once more to a restored server (S11): shown only where nothing later is known. */
  again?: true;
}

/** An op with what it is looked up by. */
export function indexed(op: Omit<Op, "judged" | "keys" | "hole">): Op {
  const keys = [...new Set(op.m.map(({ t, id }) => keyOf(t, id)))];
  return { ...op, judged: op.seq === undefined ? 0 : 1, keys, ...(keys.length ? {} : { hole: 1 as const }) };
}

/** The phone's counters, one row, always changed in the transaction they belong to. */
export interface State {
  key: "state";
  device?: string;
  incarnation: string;
  node: string;
  /** The last number given to an op. */
  dseq: number;
  /** Ops up to this number may be on the server: noted before they leave. Absent means none. */
  sent?: number;
  /** The highest number the server has acknowledged. */
  confirmed: number;
  hlc: Hlc;
  cursor: number;
  digest: Sums;
  epoch?: string;
  /** Counts fetchings of the whole book anew. Records of an earlier one stay readable until the newest is complete. */
  era?: number;
  /** True until that: records of earlier eras are still there. */
  sweep?: boolean;
  /** How many records of this era are stored; undefined in a book of an earlier build until it was counted. */
  count?: number;
  /** Whether rows of withdrawn creations are to be swept at the next opening; undefined in a book of an earlier build. */
  ghosts?: boolean;
  /** Counts writes to the live rows, so that readers fetch only what is new. */
  rev: number;
}

export interface OpResult {
  op: string;
  s: "applied" | "merged" | "parked" | "duplicate";
  /** The first verdict, on an op that came again. */
  was?: "applied" | "merged" | "parked";
  seq?: number | null;
  lost?: string[];
  why?: Verdict | null;
}

export const keyOf = (t: string, id: string): string => `${t}:${id}`;

export function splitKey(key: string): { t: string; id: string } {
  const colon = key.indexOf(":");
  return { t: key.slice(0, colon), id: key.slice(colon + 1) };
}

/** Whether the server set the op aside, now or when it first came. */
export function isParked(result: OpResult | undefined): boolean {
  return result?.s === "parked" || (result?.s === "duplicate" && result.was === "parked");
}
