/** What the rest of the app knows of the shed: its place. */
import type { Feature } from "../../records/log/registry";

export const feature: Feature = {
  routes: [{ path: "/shed/*?", load: () => import("./screens/index") }],
  reads: { place: "shed", records: ["product", "spreader", "mower", "entry"] },
};
