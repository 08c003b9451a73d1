/** What is learned from and what is left out, decided after the fact: a group laid over a pass's entry. */
import type { Mutation, Row } from "../../../platform/store/types";
import { amended, type Signed } from "../../../records/overlay";
import type { HistoryRow } from "../../../records/pass-history";

/** A pass of this job that looks unlike the others. */
export interface Doubt {
  entryId: string;
  /** Which pass of the job. */
  number: number;
  /** Chance that it was clogged, damp or shut late; null where it was left out by hand. */
  chance: number | null;
  leftOut: boolean;
}

export interface Doubted {
  bad_passes: number[];
  bad_chances?: { index: number; chance: number }[];
}

/** Leaves a pass out of learning, or takes it back in; what was noted on the job and earlier marks stay. */
export function learningOf(row: Row, bad: boolean, signed: Signed): Mutation {
  const why = bad ? "Looks off" : "Looks right after all";
  return amended(row, { group: "learning", field: "bad", value: { bad, why } }, signed);
}

/**
 * Passes of one job that the engine names as bad, by their number in the job. An answer lags behind its question, so
 * places past the end of the rows are passed over.
 */
export function doubtsOf(
  said: Doubted | undefined,
  rows: readonly HistoryRow[],
  walked: readonly { id: string; number: number }[],
): Doubt[] {
  const found = new Map<string, Doubt>();
  for (const index of said?.bad_passes ?? []) {
    const row = rows[index];
    const pass = walked.find(({ id }) => id === row?.entryId);
    if (!row || !pass) continue;
    const chance = said?.bad_chances?.find((one) => one.index === index)?.chance ?? null;
    const doubt = { entryId: pass.id, number: pass.number, chance, leftOut: row.past.bad === true };
    found.set(pass.id, { ...doubt, ...(found.get(pass.id)?.leftOut ? { leftOut: true } : {}) });
  }
  return [...found.values()];
}
