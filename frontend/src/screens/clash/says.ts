/** Clashes in plain words: what happened, and what to do now. */
import { date, nitrogen, type System } from "../../format";
import { log } from "../../models";
import type { Clash } from "../../models/clashes";
import { sayZones } from "../log/says";

const days = (n: number) => (n === 1 ? "1 day" : `${n} days`);
const apart = (n: number) => (n === 0 ? "on one day" : `${days(n)} apart`);

/** For the line at the foot of every place. */
export function sayShortly(open: readonly Clash[]): string {
  const [first] = open;
  if (!first) return "";
  if (open.length > 1) return `${open.length} warnings to settle`;
  return {
    interval: "Put down again too soon",
    nitrogen: "Nitrogen over the year’s most",
    same_job: "One mow noted twice?",
  }[first.kind];
}

export function sayTitle({ kind, assumed }: Clash): string {
  if (kind === "nitrogen") return "More nitrogen than the year’s most";
  if (kind === "same_job") return "One mow, noted twice?";
  return assumed
    ? "Two people put product down within a week"
    : "Put down again sooner than the label allows";
}

function sayInterval({ zone_ids, product_id, days_between, interval_days, assumed }: Clash): string {
  const where = sayZones(zone_ids);
  const gap = apart(days_between ?? 0);
  const least = days(interval_days ?? 0);
  if (assumed)
    return `${where}: put down twice, ${gap}. No label in the shed says how long to wait between these two, so anything under ${least} is asked about (common practice).`;
  const what = log.nameOf(product_id ?? undefined) ?? "The product";
  return `${where}: ${what} was put down twice, ${gap}. Its label wants at least ${least} between.`;
}

export function sayWhat(clash: Clash, system: System): string {
  if (clash.kind === "interval") return sayInterval(clash);
  const where = sayZones(clash.zone_ids);
  if (clash.kind === "same_job")
    return `${where}: two people noted a mow on ${date(clash.date)}. If it was one mow, strike one of the two out.`;
  const sum = nitrogen(clash.n_year_kg_m2 ?? 0, system).text;
  const most = nitrogen(clash.ceiling_kg_m2 ?? 0, system).text;
  return `${where}: this year’s walks bring ${sum} together. The most that is published for its grass in a year is ${most}.`;
}

/** The usual cautions; the label governs. */
export function sayCautions({ kind, date: latest, zone_ids }: Clash): string[] {
  if (kind === "same_job") return [];
  const there = sayZones(zone_ids);
  const later =
    kind === "interval"
      ? `Count the days to the next application from the later date, ${date(latest)}.`
      : "Feed it no more this year, unless a soil test or somebody licensed says so.";
  return [
    `Do not put down more on ${there} now: what is down cannot be taken back.`,
    "Water only as the label says.",
    later,
    "The label and local rules come first. If either was passed, do what they say.",
  ];
}
