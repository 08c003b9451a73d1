/** A record as this phone shows it: the server's, with this phone's waiting ops on top (S15). */
import type { Row, SentMutation } from "../types";
import { isAfter } from "./hlc";
import { type ChangeRecord, keyOf, type Op } from "./records";

/** The server's record as a row; without one, an empty row. */
export function rowOf(t: string, id: string, record: ChangeRecord | undefined): Row {
  const row: Row = {
    key: keyOf(t, id),
    t,
    id,
    groups: record?.groups ?? {},
    seq: record?.seq ?? 0,
    pending: false,
  };
  if (record?.body !== undefined) row.body = record.body;
  if (record?.by) row.by = record.by;
  if (record?.received_at) row.received_at = record.received_at;
  return row;
}

/** One write on top of a row. A body once there stays (entries are immutable); groups are replaced whole (S1). */
export function overlay(row: Row, m: SentMutation, op: Pick<Op, "op" | "hlc" | "again">): Row {
  const groups = { ...row.groups };
  for (const [name, value] of Object.entries(m.set ?? {})) {
    if (op.again && isAfter(groups[name]?.hlc, op.hlc)) continue;
    groups[name] = { value, version: op.op, hlc: op.hlc };
  }
  const next: Row = { ...row, groups, pending: true };
  if (row.body === undefined && m.body !== undefined) next.body = m.body;
  return next;
}

/** The row for one record from the server's copy and all waiting ops in their order; undefined when nothing is left. */
export function rebuild(
  t: string,
  id: string,
  record: ChangeRecord | undefined,
  ops: readonly Op[],
): Row | undefined {
  let row = rowOf(t, id, record);
  for (const op of ops) {
    for (const m of op.m) if (m.t === t && m.id === id) row = overlay(row, m, op);
  }
  return record || row.pending ? row : undefined;
}

/**
 * Fills in the versions the person saw: of every group of the row, not only those written, so that
 * the server can tell whether a deletion knew of every edit (S2 c).
 */
export function based(m: SentMutation, row: Row | undefined): SentMutation {
  if (!m.set) return m;
  const base: Record<string, string | null> = {};
  const seen = { ...row?.groups, ...m.set };
  for (const group of Object.keys(seen)) base[group] = row?.groups[group]?.version ?? null;
  return { ...m, base };
}

/** Out of the book: the record stays, marked (its own group, so that an edit elsewhere can bring it back). */
export function isDeleted(row: Row): boolean {
  return row.groups["deleted"]?.value?.deleted === true;
}
