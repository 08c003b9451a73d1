/** What the log adds up to, asked once for all places: one engine call for each change that can matter. */
import type { ReadonlySignal } from "@preact/signals";
import { ask, type Engine } from "../platform/engine/ask";
import type { Answer } from "../platform/engine/types";
import type { Store } from "../platform/store/types";
import { type Totals, totalsOf } from "./entries";
import { entriesIn } from "./log/read";

export type TotalsSignal = ReadonlySignal<Answer<Totals> | undefined>;

interface TotalsParts {
  store: Store;
  engine: Engine;
  /** The local day, "2026-05-09"; a signal's value where it should be followed. */
  day: () => string;
}

/** `record.totals` of the book; its answer is kept while nobody looks and stands until the log says otherwise. */
export function createTotals({ store, engine, day }: TotalsParts): TotalsSignal {
  // A log that is not read yet would add up to nothing at all.
  const after = [store.loaded("entry")];
  const log = () => totalsOf(entriesIn(store).value, day());
  return ask(engine, "record.totals", log, { keep: true, after });
}
