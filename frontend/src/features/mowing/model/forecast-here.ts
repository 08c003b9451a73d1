/** The forecast as this phone uses it, over the days of weather that the weather's own code joins. */
import { day, engine, store } from "../../../records/live";
import { weatherDays } from "../../weather";
import { createForecast, type ForecastModel } from "./forecast";

let made: Promise<ForecastModel> | undefined;

export function forecastHere(): Promise<ForecastModel> {
  made ??= weatherDays().then((days) => createForecast({ store, engine, day, days }));
  return made;
}
