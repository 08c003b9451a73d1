/** Clashes in plain words: what happened, and what to do now. */

import { date, nitrogen, rate, type System } from "../../../format";
import { nameOf, sayZones } from "../../../records/log/named";
import type { Clash, ClashKind } from "../model/clashes";

const days = (n: number) => (n === 1 ? "1 day" : `${n} days`);
const apart = (n: number) => (n === 0 ? "on the same day" : `${days(n)} apart`);

/** For the line at the foot of every place. */
export function sayShortly(open: readonly Clash[]): string {
  const [first] = open;
  if (!first) return "";
  if (open.length > 1) return `${open.length} warnings`;
  return SHORT[first.kind];
}

const SHORT: Record<ClashKind, string> = {
  interval: "Put down again too soon",
  nitrogen: "Over the yearly nitrogen limit",
  same_job: "One mow logged twice?",
  step_twice: "One step of the plan done twice?",
  quick: "Too much quick-release nitrogen",
  all_n: "Too much nitrogen at once",
  phosphate: "Too much phosphate",
  pre_twice: "Two pre-emergents too close",
  seed_after_pre: "Seeded after a pre-emergent",
  pre_after_seed: "Pre-emergent on new seed",
  young: "Weed spray on new grass",
  lime_twice: "Limed twice too soon",
  lime_nitrogen: "Lime and quick-release nitrogen together",
};

export function sayTitle({ kind, assumed }: Clash): string {
  if (kind === "nitrogen") return SHORT.nitrogen;
  if (kind === "same_job") return SHORT.same_job;
  if (kind !== "interval") return SHORT[kind];
  return assumed ? "Fed twice within a week" : "Put down again sooner than the label allows";
}

function sayInterval({ zone_ids, product_id, days_between, interval_days, assumed }: Clash): string {
  const where = sayZones(zone_ids);
  const gap = apart(days_between ?? 0);
  const least = days(interval_days ?? 0);
  if (assumed)
    return `${where}: put down twice, ${gap}. Neither label says how long to wait, so the app asks below ${least} (common practice).`;
  const what = nameOf(product_id ?? undefined) ?? "The product";
  return `${where}: ${what} was put down twice, ${gap}. The label says wait at least ${least}.`;
}

/** Two jobs that lie too near; no label here says how long, so the rule names its source in the working. */
const NEAR: Partial<Record<ClashKind, string>> = {
  pre_twice: "two pre-emergents went down",
  seed_after_pre: "seed went down after a pre-emergent",
  pre_after_seed: "a pre-emergent went down after seed",
  young: "new grass was sprayed for weeds",
  lime_twice: "lime went down twice",
  lime_nitrogen: "lime and quick-release nitrogen went down",
};

function sayNear({ kind, zone_ids, days_between, interval_days }: Clash): string {
  const gap = apart(days_between ?? 0);
  return `${sayZones(zone_ids)}: ${NEAR[kind]} ${gap}. Wait at least ${days(interval_days ?? 0)} between them.`;
}

function saySum({ kind, zone_ids, amount_kg_m2, ceiling_kg_m2, window_days }: Clash, system: System): string {
  const say = (kg_m2: number | null) => (kind === "phosphate" ? rate : nitrogen)(kg_m2 ?? 0, system).text;
  const of = { quick: "quick-release nitrogen", phosphate: "phosphate" }[kind as string] ?? "nitrogen";
  return `${sayZones(zone_ids)}: ${say(amount_kg_m2)} of ${of} within ${days(window_days ?? 0)}. The lowest published limit is ${say(ceiling_kg_m2)}.`;
}

export function sayWhat(clash: Clash, system: System): string {
  if (clash.kind === "interval") return sayInterval(clash);
  if (clash.kind in NEAR) return sayNear(clash);
  if (clash.kind === "quick" || clash.kind === "all_n" || clash.kind === "phosphate")
    return saySum(clash, system);
  const where = sayZones(clash.zone_ids);
  if (clash.kind === "same_job")
    return `${where}: two people logged a mow on ${date(clash.date)}. If it was one mow, cross one out.`;
  if (clash.kind === "step_twice")
    return `${where}: ${clash.entry_ids.length} entries say they did one step of the season plan. If it was one job, cross out the others.`;
  const sum = nitrogen(clash.n_year_kg_m2 ?? 0, system).text;
  const most = nitrogen(clash.ceiling_kg_m2 ?? 0, system).text;
  const when = clash.window_days === null ? "this year" : `in the last ${days(clash.window_days)}`;
  return `${where}: ${sum} of nitrogen ${when}. Published advice for this grass stops at ${most} a year.`;
}

/** The usual cautions; the label governs. */
export function sayCautions({ kind, date: latest, zone_ids }: Clash): string[] {
  if (kind === "same_job") return [];
  if (kind === "step_twice")
    return zone_ids.length ? [`Check the log before you put down more on ${sayZones(zone_ids)}.`] : [];
  const there = sayZones(zone_ids);
  const later =
    kind === "interval" || kind in NEAR
      ? `Count the days to the next one from the later date, ${date(latest)}.`
      : kind === "nitrogen" || kind === "phosphate"
        ? "Don’t feed it again this year unless a soil test or a licensed pro says so."
        : "Don’t feed it again for now. Water it well if it was put down today.";
  return [
    `Don’t put down more on ${there} now. You can’t take it back.`,
    "Water only as the label says.",
    later,
    "The label and local rules come first. If you went over, do what they say.",
  ];
}
