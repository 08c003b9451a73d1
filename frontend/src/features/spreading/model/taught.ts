/** After the job: what the engine is asked about what went down and what it taught. */
import { given } from "../../../records/entries";
import type { HistoryRow } from "../../../records/pass-history";
import { productArgs, type Spreader } from "../../../records/products";
import type { Likely, Plan } from "./types";

export interface TaughtValue {
  /** The job's usual setting, at which before and after are compared. */
  dial: number;
  before: Likely | null;
  after: Likely | null;
  change_share: number | null;
  band_before: number | null;
  band_after: number | null;
  says: "first" | "freer" | "tighter" | "as_before";
  reason: string;
}

export interface TaughtAsk {
  args: object;
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
