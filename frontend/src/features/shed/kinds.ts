/** The kinds of log entry that this feature brings. */
import type { EntryKind } from "../../records/log/registry";

export const KINDS: readonly EntryKind[] = [
  {
    kind: "stock_count",
    label: "Stock count",
    words: () => import("./entries/stock-count").then(({ stockCount }) => stockCount),
    totals: "all",
    add: { button: "Count stock" },
  },
  {
    kind: "tray_test",
    label: "Tray test",
    words: () => import("./entries/tray-test").then(({ trayTest }) => trayTest),
  },
  {
    kind: "bought",
    label: "Bought",
    words: () => import("./entries/bought").then(({ bought }) => bought),
    totals: "all",
  },
];
