/** Clashes in plain words: what happened, and what to do now. */
import { date, nitrogen, rate, type System } from "../../format";
import { log } from "../../models";
import type { Clash, ClashKind } from "../../models/clashes";
import { sayZones } from "../log/says";

const days = (n: number) => (n === 1 ? "1 day" : `${n} days`);
const apart = (n: number) => (n === 0 ? "on one day" : `${days(n)} apart`);

/** For the line at the foot of every place. */
export function sayShortly(open: readonly Clash[]): string {
  const [first] = open;
  if (!first) return "";
  if (open.length > 1) return `${open.length} warnings to settle`;
  return SHORT[first.kind];
}

const SHORT: Record<ClashKind, string> = {
  interval: "Put down again too soon",
  nitrogen: "Nitrogen over the year’s most",
  same_job: "One mow noted twice?",
  quick: "Too much quick nitrogen",
  all_n: "Too much nitrogen at once",
  phosphate: "Too much phosphate",
  pre_twice: "Two pre-emergents too close",
  seed_after_pre: "Seeded after a pre-emergent",
  pre_after_seed: "Pre-emergent on new seed",
  young: "Weed spray on new grass",
  lime_twice: "Limed twice too soon",
  lime_nitrogen: "Lime and quick nitrogen together",
};

export function sayTitle({ kind, assumed }: Clash): string {
  if (kind === "nitrogen") return "More nitrogen than the year’s most";
  if (kind === "same_job") return "One mow, noted twice?";
  if (kind !== "interval") return SHORT[kind];
  return assumed ? "Fed twice within a week" : "Put down again sooner than the label allows";
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

/** Two jobs that lie too near; no label here says how long, so the rule names its source in the working. */
const NEAR: Partial<Record<ClashKind, string>> = {
  pre_twice: "two pre-emergents went down",
  seed_after_pre: "seed went down after a pre-emergent",
  pre_after_seed: "a pre-emergent went down after seed",
  young: "new grass was sprayed against weeds",
  lime_twice: "lime went down twice",
  lime_nitrogen: "lime and quick nitrogen went down",
};

function sayNear({ kind, zone_ids, days_between, interval_days }: Clash): string {
  const gap = apart(days_between ?? 0);
  return `${sayZones(zone_ids)}: ${NEAR[kind]} ${gap}. At least ${days(interval_days ?? 0)} belong between them.`;
}

function saySum({ kind, zone_ids, amount_kg_m2, ceiling_kg_m2, window_days }: Clash, system: System): string {
  const say = (kg_m2: number | null) => (kind === "phosphate" ? rate : nitrogen)(kg_m2 ?? 0, system).text;
  const of = { quick: "quick nitrogen", phosphate: "phosphate" }[kind as string] ?? "nitrogen";
  return `${sayZones(zone_ids)}: ${say(amount_kg_m2)} of ${of} within ${days(window_days ?? 0)}. The lowest published limit is ${say(ceiling_kg_m2)}.`;
}

export function sayWhat(clash: Clash, system: System): string {
  if (clash.kind === "interval") return sayInterval(clash);
  if (clash.kind in NEAR) return sayNear(clash);
  if (clash.kind === "quick" || clash.kind === "all_n" || clash.kind === "phosphate")
    return saySum(clash, system);
  const where = sayZones(clash.zone_ids);
  if (clash.kind === "same_job")
    return `${where}: two people noted a mow on ${date(clash.date)}. If it was one mow, strike one of the two out.`;
  const sum = nitrogen(clash.n_year_kg_m2 ?? 0, system).text;
  const most = nitrogen(clash.ceiling_kg_m2 ?? 0, system).text;
  const when =
    clash.window_days === null ? "this year’s walks" : `the walks of the last ${days(clash.window_days)}`;
  return `${where}: ${when} bring ${sum} together. The most that is published for its grass in a year is ${most}.`;
}

/** The usual cautions; the label governs. */
export function sayCautions({ kind, date: latest, zone_ids }: Clash): string[] {
  if (kind === "same_job") return [];
  const there = sayZones(zone_ids);
  const later =
    kind === "interval" || kind in NEAR
      ? `Count the days to the next application from the later date, ${date(latest)}.`
      : kind === "nitrogen" || kind === "phosphate"
        ? "Feed it no more this year, unless a soil test or somebody licensed says so."
        : "Feed it no more for now, and water it well if it was put down today.";
  return [
    `Do not put down more on ${there} now: what is down cannot be taken back.`,
    "Water only as the label says.",
    later,
    "The label and local rules come first. If either was passed, do what they say.",
  ];
}
