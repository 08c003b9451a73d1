/** What `limits.check` is asked: the ground, the log of the last year and the labels, as the engine takes them. */

import { dayAfter } from "../../format";
import type { Args, Value } from "../../platform/engine/types";
import type { Row } from "../../platform/store/types";
import { type Entry, given, isAhead } from "../entries";
import { grassOf } from "../grasses";
import { groupOf } from "../groups";
import { phosphateNeeded } from "../log/clash-entries";
import type { Product } from "../products";
import type { RulesValue } from "./rules";

export type CheckArgs = Args<"limits.check">;
export type CheckJob = CheckArgs["jobs"][number];
export type CheckZone = CheckArgs["zones"][number];
export type CheckDay = NonNullable<CheckArgs["days"]>[number];
export type Breach = Value<"limits.check">["breaches"][number];
export type BreachKind = Breach["kind"];

/** A year of the calendar, and the last 365 days: the engine counts both. */
const YEAR_DAYS = 366;
/** Grass counts as new for 90 days or three mows: what was mown since is handed on for half a year. */
const NEW_DAYS = 185;

/** Jobs of the last year that stand, a row a zone. */
export function doneJobs(entries: readonly Entry[], today: string, zoneIds: readonly string[]): CheckJob[] {
  const first = dayAfter(today, -YEAR_DAYS);
  return entries
    .filter((one) => one.kind === "spread" && !one.struck && !one.sick.length && !(one.at < first))
    .filter((one) => !isAhead(one, today))
    .flatMap((one) => jobsOf(one, zoneIds));
}

interface SpreadShare {
  zone_id: string;
  used_kg?: number;
  rate_kg_m2?: number;
  n_kg_m2?: number;
  n_most_kg_m2?: number;
  p2o5_kg_m2?: number;
}

function jobsOf({ id, at, body }: Entry, zoneIds: readonly string[]): CheckJob[] {
  const { product_id: product, sort, slow_n_share, answered } = body;
  const shares = (Array.isArray(body["zones"]) ? body["zones"] : []) as readonly SpreadShare[];
  const reached = shares.filter(({ zone_id, used_kg }) => zoneIds.includes(zone_id) && used_kg !== 0);
  return reached.map(({ zone_id: zone, rate_kg_m2, n_kg_m2, n_most_kg_m2, p2o5_kg_m2 }) => ({
    ...{ id, date: at.slice(0, 10), zone },
    ...given({ sort, product, slow_n_share, p2o5_kg_m2, phosphate_needed: phosphateNeeded(answered) }),
    ...given({ rate_kg_m2: rate_kg_m2 || undefined, n_kg_m2: n_most_kg_m2 ?? n_kg_m2 }),
  }));
}

/** Ground as rules know it, with the mows by which new grass is told. */
export function checkZones(zones: readonly Row[], entries: readonly Entry[], today: string): CheckZone[] {
  const first = dayAfter(today, -NEW_DAYS);
  const mows = entries.filter((one) => one.kind === "mow" && !one.struck && !(one.at < first));
  return zones.map((row) => {
    const { grass } = groupOf("zone", row, "grass");
    const { sun, near_water, setback_m } = groupOf("zone", row, "site");
    const turf = grass ? grassOf(grass)?.season : undefined;
    const mown = mows.filter(({ zoneIds }) => zoneIds.includes(row.id)).map(({ at }) => at);
    return {
      id: row.id,
      ...given({ grass, turf, near_water, setback_m }),
      shade: sun === "shade",
      mows: mown,
    };
  });
}

/** What labels say, for the jobs that name their product. */
export function checkProducts(products: readonly Product[]): NonNullable<CheckArgs["products"]> {
  return products.map(({ id, interval_days, uses_year, seed_wait_days }) => ({
    id,
    ...given({ interval_days, uses_year, seed_wait_days }),
  }));
}

export function soilTests(entries: readonly Entry[]): NonNullable<CheckArgs["soil_tests"]> {
  const tests = entries.filter((one) => one.kind === "soil_test" && !one.struck && !one.sick.length);
  return tests.flatMap(({ at, zoneIds, body: { p_mg_kg, p_method, phosphate_needed } }) =>
    (zoneIds.length ? zoneIds : [undefined]).map((zone) => ({
      date: at.slice(0, 10),
      ...given({ zone, p_mg_kg, p_method, phosphate_needed }),
    })),
  );
}

/** The rules that hold as the check takes them back: what a rule does not have is left out. */
export const heldRules = ({ rules }: RulesValue): CheckArgs["rules"] =>
  rules.map(({ kind, ...rest }) => ({ kind, ...given(rest) }));
