/** What the page of soil warmth shows: the jobs of this household, and the days of the stretch chosen. */
import { signal } from "@preact/signals";
import { dayAfter, daysBetween } from "../../../format";
import type { Value } from "../../../platform/engine/types";
import { recall, remember } from "../../../platform/session/memory";
import type { Row } from "../../../platform/store/types";
import { grassOf } from "../../../records/grasses";
import { groupOf } from "../../../records/groups";
import type { Air, SoilDay } from "../drawing/soil-plot";
import type { Soil, SoilJob } from "./soil";

/** Asked about in any case, so that a day far ahead can be told; the other stretch is a part of it. */
export const BACK_DAYS = 90;
export const AHEAD_DAYS = 240;

export type Stretch = "weeks" | "months";

/** Days before and after today, and from one line of the table to the next. */
const STRETCHES: Record<Stretch, { back: number; ahead: number; every: number }> = {
  weeks: { back: 42, ahead: 42, every: 7 },
  months: { back: BACK_DAYS, ahead: AHEAD_DAYS, every: 15 },
};

const KEY = "evenfall.soil.stretch";
/** As last chosen on this phone. */
export const stretch = signal<Stretch>(recall(KEY) === "months" ? "months" : "weeks");

export function setStretch(to: Stretch): void {
  stretch.value = to;
  remember(KEY, to);
}

/** Any lawn may have crabgrass; feeding and seeding by warmth depend on the grasses of the zones. */
export function jobsOf(zones: readonly Row[]): SoilJob[] {
  const seasons = zones.map((zone) => grassOf(String(groupOf("zone", zone, "grass").grass ?? ""))?.season);
  return [
    "pre_emergent",
    ...(seasons.includes("warm") ? (["feed_warm"] as const) : []),
    ...(seasons.includes("cool") ? (["seed_cool"] as const) : []),
  ];
}

function airOf(of: "own" | "fetched" | "climate" | undefined, date: string, today: string): Air {
  if (of === "climate" || of === undefined) return "climate";
  return date <= today ? "measured" : "forecast";
}

/** The days of a stretch, each with where its air comes from. */
export function daysIn({ chart, air }: Soil, today: string, shown: Stretch): SoilDay[] {
  const { back, ahead } = STRETCHES[shown];
  const [first, last] = [dayAfter(today, -back), dayAfter(today, ahead)];
  return chart.days
    .filter(({ date }) => date >= first && date <= last)
    .map((day) => ({ ...day, air: airOf(air.get(day.date), day.date, today) }));
}

export const pointsIn = (points: Value<"warmth.chart">["points"], days: readonly SoilDay[]) =>
  points.filter(({ date }) => days.some((day) => day.date === date));

/** Those that stand in the table: today, and so many days apart before and after it. */
export const linesOf = (days: readonly SoilDay[], today: string, shown: Stretch): SoilDay[] =>
  days.filter(({ date }) => daysBetween(today, date) % STRETCHES[shown].every === 0);
