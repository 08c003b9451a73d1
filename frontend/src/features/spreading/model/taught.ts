/** After the job: what the engine is asked about what went down and what it taught. */
import type { Args, Value } from "../../../platform/engine/types";
import { given } from "../../../records/entries";
import type { HistoryRow } from "../../../records/pass-history";
import { productArgs, type Spreader } from "../../../records/products";
import type { Plan } from "./types";

export type TaughtValue = Value<"spreading.taught">;

export interface TaughtAsk {
  args: Args<"spreading.taught">;
  /** When the pass before this job was, and the first one of its year: what "than before" means. */
  before: { from: string; to: string } | undefined;
}

/**
 * `spreading.taught`: this job's passes against all before them. Passes others walked since are left out: the question
 * is what this job taught.
 */
export function taughtAsk(
  spreadId: string,
  plan: Plan,
  rows: readonly HistoryRow[],
  spreader: Spreader | undefined,
): TaughtAsk | null {
  const mine = rows.filter((row) => row.spreadId === spreadId);
  if (!mine.length) return null;
  const before = rows.slice(0, rows.indexOf(mine[0] as HistoryRow));
  const last = before.at(-1);
  const first = before.find(({ at }) => at.slice(0, 4) === last?.at.slice(0, 4));
  const args = {
    dial: plan.dial,
    product: productArgs(plan.product),
    history: [...before, ...mine].map(({ past }) => past),
    walked: mine.length,
    ...given({ swath_m: spreader?.swath_m, speed_m_s: spreader?.speed_m_s }),
  };
  return { args, before: first && last ? { from: first.at, to: last.at } : undefined };
}
