/** What the rest of the app knows of the season: its place. */
import type { Feature } from "../../records/log/registry";

export const feature: Feature = {
  routes: [{ path: "/season/*?", load: () => import("./screens/index") }],
  reads: { place: "season", records: ["zone", "product", "entry"] },
};
