/** The kinds of log entry that this feature brings. */

import type { EntryKind } from "../../records/log/registry";

export const KINDS: readonly EntryKind[] = [
  {
    kind: "spread",
    label: "Spreading",
    words: () => import("./entries/spread").then(({ spread }) => spread),
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
