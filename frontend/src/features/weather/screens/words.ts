/** What the weather's pages say in several places. */
import { count, date, dateTime, type System, weekday } from "../../../format";
import { dayOfMoment } from "../../../format/moment";

/** Why the service brought nothing, as far as the reader can do something with it. */
export const TROUBLE: Record<string, string> = {
  unreachable: "The weather service could not be reached.",
  slow: "The weather service did not answer in time.",
  failing: "The weather service has trouble.",
  too_long: "The weather service sent too much.",
  wrong: "The weather service sent something else.",
  empty: "The weather service has nothing for this place.",
};

export const LATER = "Evenfall asks again by itself.";

/** "Forecast of Tue 24 Nov" while it is young, with its clock on the same day. */
export function sayAge(fetchedAt: string, today: string, system: System): string {
  const day = dayOfMoment(fetchedAt);
  if (day === today) return `Forecast of today, ${dateTime(fetchedAt, system).split(", ").at(-1)}`;
  return `Forecast of ${day.slice(0, 4) === today.slice(0, 4) ? weekday(fetchedAt) : date(fetchedAt)}`;
}

/** 41.6° N, 70.1° W. */
export function sayPlace(latitude_deg: number, longitude_deg: number | undefined): string {
  const lat = `${Math.abs(latitude_deg).toFixed(1)}° ${latitude_deg < 0 ? "S" : "N"}`;
  if (longitude_deg === undefined) return lat;
  return `${lat}, ${Math.abs(longitude_deg).toFixed(1)}° ${longitude_deg < 0 ? "W" : "E"}`;
}

/** "1 day, 1 May 2026" or "12 days, 1 May 2026 to 14 May 2026". */
export function sayDays(n: number, first: string, last: string): string {
  const days = count(n, "day").text;
  return n === 1 ? `${days}, ${date(first)}` : `${days}, ${date(first)} to ${date(last)}`;
}
