/** The learned curve of a spreader: what the engine is asked, and the passes it answers about, each with its entry. */

import type { Args, Value } from "../../../platform/engine/types";
import { type Entry, given } from "../../../records/entries";
import { entriesIn, entryIn } from "../../../records/log/read";
import { createWriting, type WritingParts } from "../../../records/log/writing";
import { type HistoryRow, historyRows } from "../../../records/pass-history";
import { type Product, productArgs, type Spreader } from "../../../records/products";
import type { CurvePoint, PassMark } from "../../../ui/charts/curve-drawing";

/** `spreading.curve` as answered. */
export type CurveAnswer = Value<"spreading.curve">;

/** Why a pass was not learned from, by the engine's own word. */
export type LeftOut = NonNullable<CurveAnswer["past"][number]["left_out"]>;

/** A pass as the chart and the list beneath it show it; in the chart only where it has a setting and a rate. */
export interface LearnedPass extends Omit<CurvePoint, "dial" | "rate_kg_m2"> {
  dial: number | null;
  rate_kg_m2: number | null;
  measured_kg_m2: number | null;
  entryId: string;
  at: string;
  product: string;
  bad_chance: number | null;
  left_out: LeftOut | null;
  row: HistoryRow;
}

/** From here on a pass is likelier bad than not, as the engine counts. */
const LIKELY_BAD = 0.5;

function markOf(left_out: LeftOut | null, bad_chance: number | null, same: boolean): PassMark {
  if (left_out) return "left_out";
  if ((bad_chance ?? 0) > LIKELY_BAD) return "doubtful";
  return same ? "this" : "other";
}

/** Products met with this spreader, the one walked last first. */
export function productsMet(rows: readonly HistoryRow[]): string[] {
  return [...new Set([...rows].reverse().map(({ past }) => past.product))];
}

/** What `spreading.curve` is asked: today's swath and speed, and all that was walked. */
export function curveArgs(
  spreader: Spreader,
  product: Product | undefined,
  productId: string,
  rows: readonly HistoryRow[],
): Args<"spreading.curve"> {
  const { lowest, highest, step } = spreader.dial;
  const { swath_m, speed_m_s } = spreader;
  return {
    dial: { lowest, highest, step },
    product: product ? productArgs(product) : { id: productId },
    history: rows.map(({ past }) => past),
    ...given({ swath_m, speed_m_s }),
  };
}

/** The answer's passes with their entries, newest first. An answer to older rows may name places that are gone. */
export function learnedPasses(answer: CurveAnswer | undefined, rows: readonly HistoryRow[]): LearnedPass[] {
  const found = (answer?.past ?? []).flatMap(
    ({ index, dial, rate_kg_m2, measured_kg_m2, same_product, bad_chance, left_out }) => {
      const row = rows[index];
      if (!row) return [];
      const { entryId, at, part, past } = row;
      const mark = markOf(left_out, bad_chance, same_product);
      const key = part === null ? entryId : `${entryId}.${part}`;
      const said = { dial, rate_kg_m2, measured_kg_m2, bad_chance, left_out };
      return [{ key, ...said, mark, entryId, at, product: past.product, row }];
    },
  );
  return found.reverse();
}

/** Those that can be drawn: with a setting and a rate. */
export function drawnPasses(passes: readonly LearnedPass[]): CurvePoint[] {
  return passes.flatMap(({ key, dial, rate_kg_m2, mark }) =>
    dial === null || rate_kg_m2 === null ? [] : [{ key, dial, rate_kg_m2, mark }],
  );
}

export function createCurve(parts: WritingParts) {
  const { store } = parts;
  const { amend } = createWriting(parts);
  const entries = entriesIn(store);
  return {
    rows: (spreader: Spreader): HistoryRow[] => historyRows(spreader.id, spreader.dial, entries.value),
    /** The entry as it stands, read where it is drawn; undefined when this phone does not hold it. */
    entryNow: (id: string) => entryIn(store, id),
    /** Leaves a pass out of learning, or takes it in again; its own mark stays in the body. */
    setLearning: (entry: Entry, bad: boolean, why: string) => amend(entry, "learning", "bad", { bad, why }),
  };
}
