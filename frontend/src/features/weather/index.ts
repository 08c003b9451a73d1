/** What the rest of the app knows of the weather: its place, under the household. */
import type { Feature } from "../../records/log/registry";
import { late } from "../../ui/parts/late";

export type { DaysModel, Joined, Known } from "./model/days";
export type { Soil, SoilModel } from "./model/soil";

/** Days of weather, with the code that joins them: fetched when they are first asked for. */
export const weatherDays = () => import("./model").then(({ days }) => days);

/** Warmth of the soil, with the code that works it out: fetched when it is first asked for. */
export const soilWarmth = () => import("./model").then(({ soil }) => soil);

/** Days as rules are held against them, with the code that works them out. */
export const checkDays = () => import("./model").then((found) => found.checkDays);

/** How warm the soil of a zone is, on the zone's page. */
export const ZoneSoil = late(() => import("./screens/zone-soil").then((found) => found.ZoneSoil));

export const feature: Feature = {
  routes: [{ path: "/weather/*?", load: () => import("./screens/index") }],
  reads: { place: "weather", records: ["household", "weather_month", "zone", "entry"] },
};
