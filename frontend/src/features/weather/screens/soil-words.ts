/** Warmth of the soil in words: what it is now, when it passes what a job waits for, what all of it rests on. */
import { dayMonth, daysBetween, depth, range, type System, temperature } from "../../../format";
import type { Value } from "../../../platform/engine/types";
import { isFelt, type Soil } from "../model/soil";
import { sayAge } from "./words";

type Chart = Value<"warmth.chart">;
export type SoilMark = Chart["marks"][number];

/** What waits for a warmth, long for the page and short for the chart. */
export const MARKS: Record<SoilMark["kind"], { long: string; short: string }> = {
  pre_emergent_opens: { long: "Pre-emergent window opens", short: "Pre-emergent" },
  crabgrass_sprouts: { long: "Crabgrass sprouts", short: "Crabgrass" },
  warm_grass_feeds: { long: "Warm-season grass can be fed", short: "Feed" },
  seed_cool_from: { long: "Cool-season seed, coolest", short: "Seed, coolest" },
  seed_cool_to: { long: "Cool-season seed, warmest", short: "Seed, warmest" },
};

export const sayDepth = ({ depth_mm }: Chart, system: System): string =>
  `${depth(depth_mm, system).text} deep`;

export const sayLikely = (of: { low: number; high: number }, system: System): string =>
  range(temperature(of.low, system), temperature(of.high, system)).text;

/** "Soil now 57 °F, likely 53–61 °F, 4 in deep." */
export function sayNow(chart: Chart, system: System): string {
  const { now } = chart;
  if (!now) return "";
  const warm = temperature(now.mid, system).text;
  return `Soil now ${warm}, likely ${sayLikely(now, system)}, ${sayDepth(chart, system)}.`;
}

/** Most of a year at most is foretold, so that no day needs its year. */
function sayBetween({ earliest, latest }: SoilMark, today: string): string {
  if (!earliest || daysBetween(today, earliest) <= 0)
    return latest ? `, likely by ${dayMonth(latest)}` : ", maybe already";
  return latest
    ? `, likely ${dayMonth(earliest)} to ${dayMonth(latest)}`
    : `, likely ${dayMonth(earliest)} or later`;
}

/** When the soil passes a mark, from the side it is on today; `last` is the last day anything is known of. */
export function sayPassing(mark: SoilMark, today: string, last: string): string {
  const { now, passes, earliest } = mark;
  if (!now) return "Not known.";
  const [is, turns] = now === "below" ? ["Colder", "Warmer"] : ["Warmer", "Colder"];
  if (passes) return `${is} now. ${turns} from about ${dayMonth(passes)}${sayBetween(mark, today)}.`;
  if (!earliest) return `${is} now, and until ${dayMonth(last)}.`;
  const from = daysBetween(today, earliest) <= 0 ? "today" : dayMonth(earliest);
  return `${is} now. ${turns} is possible from ${from}.`;
}

/** The mark that is passed next, in one sentence. */
export function sayNext({ marks }: Chart, today: string, system: System): string {
  const [next] = marks
    .filter(({ passes }) => passes && daysBetween(today, passes) > 0)
    .sort((a, b) => ((a.passes ?? "") < (b.passes ?? "") ? -1 : 1));
  if (!next?.passes) return "";
  const way = next.now === "below" ? "Rises past" : "Falls below";
  return `${way} ${temperature(next.mid, system).text} about ${dayMonth(next.passes)}${sayBetween(next, today)}.`;
}

/** What it rests on, and how old that is. */
export function sayGround(soil: Soil, today: string, system: System): string[] {
  const { from, readOn, fetchedAt } = soil;
  const age = fetchedAt ? `${sayAge(fetchedAt, today, system)}.` : "By your own days.";
  return [
    isFelt(soil, today) ? age : "By the climate alone. No weather is known here.",
    from === "readings" && readOn
      ? `Corrected by your reading of ${dayMonth(readOn)}.`
      : "A soil reading makes it surer.",
  ];
}

/** In place of the chart, for those who do not see it. */
export function sayChart(days: readonly { date: string; mid: number }[], system: System): string {
  const [first, last] = [days[0], days.at(-1)];
  if (!first || !last) return "";
  const mids = days.map(({ mid }) => mid);
  const [low, high] = [Math.min(...mids), Math.max(...mids)];
  const reach = range(temperature(low, system), temperature(high, system)).text;
  return `Soil warmth from ${dayMonth(first.date)} to ${dayMonth(last.date)}, ${reach}. The table below has the figures.`;
}
