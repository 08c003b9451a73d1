/** The kinds of log entry that this feature brings. */
import type { EntryKind } from "../../records/log/registry";

export const KINDS: readonly EntryKind[] = [
  {
    kind: "soil_test",
    label: "Soil test",
    words: () => import("./entries/soil-test").then(({ soilTest }) => soilTest),
    add: { button: "Add a soil test" },
  },
];
