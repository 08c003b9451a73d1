/** Warnings before a job in plain words: danger, what to do, reason. */
import { date } from "../../../../format";
import type { BeforeWarning, BeforeZone } from "../../model/before/before";

function ago(days: number): string {
  if (days <= 0) return "today";
  return days === 1 ? "yesterday" : `${days} days ago`;
}

const TITLES: Record<BeforeWarning["kind"], string> = {
  interval: "Fed too recently",
  quick: "Too much quick-release nitrogen",
  all_n: "Too much nitrogen at once",
  nitrogen: "Too much nitrogen for one year",
  phosphate: "Too much phosphate for one year",
  phosphate_once: "Too much phosphate at once",
  pre_twice: "Second pre-emergent too soon",
  seed_after_pre: "Seed may not come up yet",
  pre_after_seed: "Too soon after seeding",
  young: "Too soon on new grass",
  lime_twice: "Limed too recently",
  lime_nitrogen: "Lime and quick-release nitrogen together",
  lime_once: "Too much lime at once",
};

export function sayTitle({ kind, assumed }: BeforeWarning): string {
  if (kind === "interval" && !assumed) return "Too soon by the label";
  return TITLES[kind];
}

export function sayZone(
  name: string,
  { date: on, days_between }: BeforeZone,
  amount: string | undefined,
): string {
  if (amount) return `${name}: ${amount} with this job.`;
  return on === null ? `${name}.` : `${name}: ${ago(days_between ?? 0)}, ${date(on)}.`;
}

const days = (n: number) => (n === 1 ? "1 day" : `${n} days`);

/** The rule in a sentence, with its figure; where no label says it, that is said too. */
export function sayReason(
  { kind, assumed, interval_days, window_days }: BeforeWarning,
  most: string | undefined,
) {
  const least = days(interval_days ?? 0);
  const over = window_days === null ? "in a calendar year" : `in ${days(window_days)}`;
  const rules: Record<BeforeWarning["kind"], string> = {
    interval: assumed
      ? `Wait ${least} between two feeds. No label here says how long (common practice).`
      : `The label says wait ${least}. Follow the label. Wait, or skip these zones.`,
    quick: `Put down at most ${most} of quick-release nitrogen ${over}. More can burn. Local limits differ.`,
    all_n: `Put down at most ${most} of nitrogen ${over}. Local limits differ.`,
    nitrogen: `Put down at most ${most} ${over}. Published advice for this grass stops there.`,
    phosphate: `Without a soil test or seeding, put down at most ${most} ${over}.`,
    phosphate_once: `Without a soil test or seeding, put down at most ${most} at once.`,
    pre_twice: `Wait ${least}, or as long as the label says. The first one still works.`,
    seed_after_pre: `Wait as the label says. The longest published wait is ${least}.`,
    pre_after_seed: `Wait for three mows or ${least}. It can kill seedlings.`,
    young: `Wait for three mows or ${least}. It can hurt new grass.`,
    lime_twice: `Wait ${least} between two limings.`,
    lime_nitrogen: `Keep ${least} between them. Lime drives quick-release nitrogen into the air.`,
    lime_once: `Put down at most ${most} at once. Put down the rest half a year later.`,
  };
  return rules[kind];
}

/** In the first person, so that it can be true or false. */
export function sayAnswer({ kind, assumed }: BeforeWarning): string {
  if (kind === "interval" && !assumed) return "I read the label again. It allows this.";
  return "I read this. The label and local rules allow it.";
}
