/** The kinds of log entry that this feature brings. */
import type { EntryKind } from "../../records/log/registry";

export const KINDS: readonly EntryKind[] = [
  {
    kind: "reading",
    label: "Reading",
    words: () => import("./entries/reading").then(({ reading }) => reading),
    add: { button: "Add a reading" },
  },
];
