/** What the rest of the app knows of the weather: its place, under the household. */
import type { Feature } from "../../records/log/registry";

export type { DaysModel, Joined, Known } from "./model/days";
export type { Soil, SoilModel } from "./model/soil";

/** Days of weather, with the code that joins them: fetched when they are first asked for. */
export const weatherDays = () => import("./model").then(({ days }) => days);

/** Warmth of the soil, with the code that works it out: fetched when it is first asked for. */
export const soilWarmth = () => import("./model").then(({ soil }) => soil);

export const feature: Feature = {
  routes: [{ path: "/weather/*?", load: () => import("./screens/index") }],
  reads: { place: "weather", records: ["household", "weather_month", "zone", "entry"] },
};
