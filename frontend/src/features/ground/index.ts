/** What the rest of the app knows of the ground: its place. */
import type { Feature } from "../../records/log/registry";

export const feature: Feature = {
  routes: [{ path: "/ground/*?", load: () => import("./screens/index") }],
  reads: { place: "ground", records: ["zone", "entry", "photo"] },
};
