/** The last days' warmth as this phone knows it, with the code that joins days: fetched when it is first asked for. */
import { weatherDays } from "../../weather";
import { createRecent, type RecentModel } from "./recent";

let made: Promise<RecentModel> | undefined;

export function recentHere(): Promise<RecentModel> {
  made ??= weatherDays().then((days) => createRecent({ days }));
  return made;
}
