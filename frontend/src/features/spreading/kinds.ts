/** The kinds of log entry that this feature brings. */

import type { Entry } from "../../records/entries";
import type { EntryKind, Job } from "../../records/log/registry";

const SPRAYED = ["pre_emergent", "post_emergent"];

/** Lime and seed feed nothing. Entries of before the sort was noted, and other products, are feeds by their nitrogen. */
function jobOf({ sort = "other", n_percent = 0 }: Entry["body"]): Job | undefined {
  if (SPRAYED.includes(sort)) return "spray";
  return sort === "fertilizer" || (sort === "other" && n_percent > 0) ? "feed" : undefined;
}

export const KINDS: readonly EntryKind[] = [
  {
    kind: "spread",
    label: "Spreading",
    words: () => import("./entries/spread").then(({ spread }) => spread),
    does: jobOf,
    totals: "all",
    keepsOff: true,
    // This year and the last: sums over a year look back so far.
    mayClash: ({ at }, { day }) => !(Number(at.slice(0, 4)) < Number(day.slice(0, 4)) - 1),
    sows: ({ sort }) => sort === "seed",
    parts: {
      title: "Passes",
      way: "Open its spreading job",
      whenCrossedOut: "Its passes stay and still set later dials. You can cross out each one.",
    },
  },
  {
    kind: "pass",
    label: "Pass",
    words: () => import("./entries/pass").then(({ pass }) => pass),
    keepsOff: true,
    partOf: ({ spread_id }) => spread_id,
  },
];
