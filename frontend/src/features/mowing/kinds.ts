/** The kinds of log entry that this feature brings. */
import { isWithin } from "../../records/entries";
import type { EntryKind } from "../../records/log/registry";

/** A mow noted twice is asked about for two weeks; a day more for clocks that stand apart. */
const TWICE_DAYS = 15;

export const KINDS: readonly EntryKind[] = [
  {
    kind: "mow",
    label: "Mow",
    words: () => import("./entries/mow").then(({ mow }) => mow),
    totals: "latest",
    mayClash: (entry, { day, onNewGrass }) => onNewGrass || isWithin(entry, day, TWICE_DAYS),
  },
];
