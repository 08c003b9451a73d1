/** What the rest of the app knows of the weather: its place, under the household. */
import type { Feature } from "../../records/log/registry";

export const feature: Feature = {
  routes: [{ path: "/weather/*?", load: () => import("./screens/index") }],
  reads: { place: "weather", records: ["household", "weather_month"] },
};
