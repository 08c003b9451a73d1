/** The kinds of log entry that this feature brings. */
import type { EntryKind } from "../../records/log/registry";

export const KINDS: readonly EntryKind[] = [
  {
    kind: "observation",
    label: "Observation",
    words: () => import("./entries/observation").then(({ observation }) => observation),
    add: { button: "Add observation" },
  },
];
