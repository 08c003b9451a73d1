/** What the rest of the app knows of the household: its place. */
import type { Feature } from "../../records/log/registry";

export const feature: Feature = {
  routes: [{ path: "/household/*?", load: () => import("./screens/index") }],
  reads: { place: "household", records: ["household", "member", "entry", "claim", "settlement", "photo"] },
};
