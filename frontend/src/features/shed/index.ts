/** What the rest of the app knows of the shed: its place. */
import type { Feature } from "../../records/log/registry";
import { lateSheet } from "../../ui/parts/late";

/** The form of a purchase, fetched as it is opened. */
export const BuySheet = lateSheet(() => import("./screens/buying").then((found) => found.BuySheet));

export const feature: Feature = {
  routes: [{ path: "/shed/*?", load: () => import("./screens/index") }],
  reads: { place: "shed", records: ["product", "spreader", "mower", "entry"] },
};
