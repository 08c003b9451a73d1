/** A zone's mow in words, the same on Today and on the zone's own page. Figures and dates are the engine's. */
import { count, daysAgo, daysBetween, percent, weekday } from "../../format";
import type { Step } from "../../platform/engine/types";
import type { Due, Evening, ZoneMow } from "../look";

const WEEK_DAYS = 6;

/** "Thu" within the week, "Thu 14 May" beyond it. */
export function sayDay(date: string, today: string): string {
  const away = daysBetween(today, date);
  return away >= 0 && away <= WEEK_DAYS ? weekday(date).slice(0, 3) : weekday(date);
}

/** "By Fri, likely Thu to Sat". */
export function sayRange({ mow_by, earliest, latest }: ZoneMow, today: string): string | undefined {
  if (!mow_by) return earliest ? `Not before ${sayDay(earliest, today)}` : undefined;
  const by = `By ${sayDay(mow_by, today)}`;
  if (!earliest || !latest) return by;
  const [first, last] = [sayDay(earliest, today), sayDay(latest, today)];
  return first === last ? by : `${by}, likely ${first} to ${last}`;
}

/** What a cut takes on a night: "You would take 38%" where it is tonight, else "On Sat you would take 38%". */
export function sayTakenOn(share: number, night: string, today: string): string {
  const taken = percent(share).text;
  return night === today ? `You would take ${taken}` : `On ${sayDay(night, today)} you would take ${taken}`;
}

/** "Not growing. No mow expected before Fri 20 Mar." */
export function sayRest({ growing_again }: ZoneMow): string {
  return `Not growing. No mow expected ${growing_again ? `before ${weekday(growing_again)}` : "yet"}.`;
}

export const isResting = (mow: ZoneMow): boolean => mow.state === "nearly_stopped" && !mow.due;

/** "2 days late" or when it is for, and whether it can wait. */
export function sayNeed(mow: ZoneMow, evening: Evening | undefined, today: string): string {
  const late = mow.mow_by ? daysBetween(mow.mow_by, today) : 0;
  if (mow.due && late > 0) return `${count(late, "day").text} late`;
  if (mow.due) return evening?.isTonight ? "Due tonight" : "Due next mowing night";
  if (mow.state === "nearly_stopped") return "Resting";
  return mow.why === "may_not_wait" ? "Can probably wait" : "Can wait";
}

/** By the days between mows, where there is no forecast: the words and the mark that goes with them. */
export function sayByDays({ state, due_on }: Pick<Due, "state" | "due_on">, today: string) {
  const on = due_on ?? "";
  return {
    never: { says: "Not mowed yet", tag: "tag" },
    overdue: { says: `Overdue ${count(daysBetween(on, today), "day").text}`, tag: "tag tag--overdue" },
    due: { says: "Due today", tag: "tag tag--due" },
    ok: { says: `Due ${daysAgo(on, today)}`, tag: "tag tag--good" },
  }[state];
}

/** How old what it rests on is. */
export function sayFrom({ weather, fetchedAt }: Evening, today: string): string {
  if (!weather) return "No forecast here. Days between mows decide.";
  if (!fetchedAt) return "No weather forecast. We go by the climate.";
  return `Forecast of ${fetchedAt.slice(0, 10) === today ? "today" : weekday(fetchedAt)}.`;
}

/** What a zone lacks for a forecast. */
export const LACKS: Partial<Record<ZoneMow["known"], string>> = {
  no_grass: "Add its grass to get a forecast.",
  no_height: "Add a mowing height to get a forecast.",
};

/** Why these zones are due: what is said of the night, then of each of them. */
export function whyDue(
  night: readonly Step[],
  foretold: readonly Step[],
  ids: ReadonlySet<string | undefined>,
): Step[] {
  return [
    ...night.filter(({ of }) => of === undefined || ids.has(of)),
    ...foretold.filter(({ of }) => of !== undefined && ids.has(of)),
  ];
}
