/** What the rest of the app knows of mowing: the mowers in the shed, and the sheet of a mow. */
import type { Feature } from "../../records/log/registry";
import { late, lateSheet } from "../../ui/parts/late";

export const MowSheet = lateSheet(() => import("./screens/mow-sheet").then((found) => found.MowSheet));

/** Their part of the shed's list. */
export const Mowers = late(() => import("./screens/mowers").then((found) => found.Mowers));

/** A zone's mow on its own page: next due and why, and its last cuts. The forecast's code comes with it. */
export const ZoneMow = late(() => import("./screens/zone-mow").then((found) => found.zoneMow()));

export const feature: Feature = {
  // Before the shed's own, which takes all that is left.
  routes: [{ path: "/shed/mower/*?", load: () => import("./screens/index") }],
};

export type { ForecastModel } from "./model/forecast";

/** The forecast, with its code: fetched when it is first asked for, and never waited for. */
export const openForecast = () => import("./model/forecast-here").then(({ forecastHere }) => forecastHere());
