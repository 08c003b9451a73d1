/** Which rules the job as chosen would break (`limits.check`): of the place, of the household, of the weather. */
import type { Row } from "../../../../platform/store/types";
import { type Entry, given } from "../../../../records/entries";
import {
  type Breach,
  type BreachKind,
  type CheckArgs,
  type CheckDay,
  type CheckJob,
  checkProducts,
  checkZones,
  doneJobs,
  heldRules,
  soilTests,
} from "../../../../records/limits/check";
import type { RulesValue } from "../../../../records/limits/rules";
import type { Product } from "../../../../records/products";
import type { AimValue, Choice } from "../asks";
import type { Answered } from "../types";
import type { Answers, BeforeValue, BeforeWarning } from "./before";
import type { SetbackValue } from "./setback";

const THIS_JOB = "this job";

export interface Checking {
  choice: Choice;
  aim: AimValue | undefined;
  rules: RulesValue | undefined;
  zones: readonly Row[];
  entries: readonly Entry[];
  products: readonly Product[];
  setback: SetbackValue | undefined;
  days: readonly CheckDay[] | undefined;
  today: string;
}

function planned({ choice, aim, setback, today }: Checking): CheckJob[] {
  const { zones, product, spreader } = choice;
  if (!product || !aim) return [];
  const { id, sort, slow_n_share } = product;
  const guarded = spreader?.sort === "drop" || spreader?.deflector === true;
  return zones.map((zone) => ({
    ...{ id: THIS_JOB, date: today, zone: zone.id, sort, product: id, guarded },
    rate_kg_m2: aim.target_kg_m2,
    ...given({ n_kg_m2: aim.n_kg_m2, p2o5_kg_m2: aim.p2o5_kg_m2, slow_n_share }),
    // What the safety check says to keep clear.
    ...given({ clear_m: setback?.zones.find(({ zone_id }) => zone_id === zone.id)?.setback_m }),
  }));
}

/** Null while something of the choice, the rules or the weather is not there yet. */
export function brokenArgs(asking: Checking): CheckArgs | null {
  const { choice, rules, zones, entries, products, days, today } = asking;
  const jobs = planned(asking);
  if (!jobs.length || !rules || !days) return null;
  const ids = choice.zones.map(({ id }) => id);
  return {
    jobs: [...doneJobs(entries, today, ids), ...jobs],
    zones: checkZones(zones, entries, today).filter(({ id }) => ids.includes(id)),
    rules: heldRules(rules),
    ...given({ place: rules.places[0] }),
    products: checkProducts(products),
    soil_tests: soilTests(entries),
    days,
  };
}

/** One rule that this job breaks, on all the zones where it does. */
export interface Broken {
  key: string;
  kind: BreachKind;
  breaches: readonly Breach[];
  /** Right from the latest of its days; null where waiting alone does not help somewhere. */
  right_from: string | null;
}

/** What the log's own check says of the same: said once, in its words. */
const SAID: Partial<Record<BreachKind, readonly BeforeWarning["kind"][]>> = {
  label_interval: ["interval"],
  spacing_quick: ["interval"],
  spacing_slow: ["interval"],
  quick_once: ["quick"],
  quick_days: ["quick"],
  gentle_once: ["quick", "all_n"],
  all_once: ["all_n"],
  all_days: ["all_n"],
  year: ["nitrogen"],
  phosphate: ["phosphate", "phosphate_once"],
  phosphate_once: ["phosphate_once"],
  phosphate_year: ["phosphate"],
  pre_twice: ["pre_twice"],
  seed_after_pre: ["seed_after_pre"],
  pre_after_seed: ["pre_after_seed"],
  young: ["young"],
  lime_once: ["lime_once"],
  lime_twice: ["lime_twice"],
  lime_nitrogen: ["lime_nitrogen"],
};

const latest = (days: readonly (string | null)[]): string | null =>
  days.includes(null) ? null : ([...days].sort().at(-1) ?? null);

/** Breaches of this job by rule; those that a warning already tells of the same zone are left out. */
export function brokenBy(breaches: readonly Breach[], warnings: readonly BeforeWarning[]): Broken[] {
  const said = ({ kind, zone }: Breach) =>
    warnings.some(
      (one) => SAID[kind]?.includes(one.kind) && one.zones.some(({ zone_id }) => zone_id === zone),
    );
  const mine = breaches.filter((one) => one.job === THIS_JOB && !said(one));
  return [...new Set(mine.map(({ kind }) => kind))].map((kind) => {
    const own = mine.filter((one) => one.kind === kind);
    const others = [...new Set(own.flatMap((one) => one.others))].sort();
    return {
      key: ["rule", kind, ...others].join(":"),
      kind,
      breaches: own,
      right_from: latest(own.map((one) => one.right_from)),
    };
  });
}

/**
 * The log's warnings that still count once the household said where it is or entered its rules: the label's alone. What
 * the trade or the strictest place says of the rest, the rules that hold here say instead.
 */
export function warningsHere(
  warnings: BeforeValue["warnings"],
  rules: RulesValue | undefined,
): BeforeWarning[] {
  const told =
    rules && (rules.state === "known" || rules.rules.some(({ source }) => source === "entered by you"));
  return told ? warnings.filter(({ assumed }) => !assumed) : warnings;
}

/** What the entry keeps of the broken rules that were answered before it. */
export function brokenAnswered(broken: readonly Broken[], answers: Answers = {}, at: string): Answered[] {
  return broken.flatMap(({ key, kind, breaches, right_from }) => {
    const answer = answers[key];
    return answer ? [{ key, kind, zone_ids: breaches.map(({ zone }) => zone), right_from, answer, at }] : [];
  });
}
