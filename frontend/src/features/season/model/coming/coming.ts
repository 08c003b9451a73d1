/** The steps of the plan that are next: this week's, the next one's and what is overdue, each held to the rules. */
import { dayAfter } from "../../../../format";
import { type Engine, type Followed, follow } from "../../../../platform/engine/ask";
import type { Answer, Args } from "../../../../platform/engine/types";
import type { Row } from "../../../../platform/store/types";
import { type Entry, given } from "../../../../records/entries";
import { groupOf } from "../../../../records/groups";
import {
  type Breach,
  type CheckDay,
  type CheckJob,
  checkProducts,
  checkZones,
  doneJobs,
  heldRules,
  soilTests,
} from "../../../../records/limits/check";
import type { Product } from "../../../../records/products";
import type { Kept } from "../plan/book";

/** This week and the next. */
const AHEAD_DAYS = 14;

export interface ComingStep {
  id: string;
  job: Kept["job"];
  title: string | undefined;
  zoneIds: readonly string[];
  from: string;
  to: string;
  productId: string | undefined;
  rate_kg_m2: number | undefined;
}

function stepOf(row: Row): ComingStep {
  const { job = "other", title } = groupOf("step", row, "job");
  const { from_on = "", to_on = "" } = groupOf("step", row, "window");
  const { product_id, rate_kg_m2 } = groupOf("step", row, "product");
  const { zone_ids = [] } = groupOf("step", row, "ground");
  return {
    id: row.id,
    job,
    title,
    zoneIds: zone_ids,
    from: from_on,
    to: to_on,
    productId: product_id,
    rate_kg_m2,
  };
}

/** Planned steps that begin within two weeks, the soonest first; one whose entry is in the log is done. */
export function comingSteps(rows: readonly Row[], entries: readonly Entry[], today: string): ComingStep[] {
  const done = new Set(entries.filter(({ struck }) => !struck).map(({ body }) => body["step_id"]));
  return rows
    .filter((row) => (groupOf("step", row, "state").state ?? "planned") === "planned" && !done.has(row.id))
    .map(stepOf)
    .filter(({ from }) => from !== "" && from <= dayAfter(today, AHEAD_DAYS))
    .sort((a, b) => a.from.localeCompare(b.from) || a.id.localeCompare(b.id));
}

export interface ComingAsking {
  steps: readonly ComingStep[];
  zones: readonly Row[];
  entries: readonly Entry[];
  products: readonly Product[];
  days: readonly CheckDay[];
  rules: Args<"limits.rules">;
  today: string;
}

const SORTS: Record<string, string> = {
  feed: "fertilizer",
  pre_emergent: "pre_emergent",
  overseed: "seed",
  lime: "lime",
};

type Asked = ComingAsking;

/** Each zone of a step as the rules take it; what only cuts or samples puts nothing down. */
async function jobsOf(engine: Engine, step: ComingStep, { products, today }: Asked): Promise<CheckJob[]> {
  const sort = SORTS[step.job];
  if (!sort) return [];
  const product = products.find(({ id }) => id === step.productId);
  const { rate_kg_m2 } = step;
  const { n_percent, p2o5_percent } = product ?? {};
  const told =
    rate_kg_m2 && n_percent !== undefined
      ? await engine.call("label.nutrients", { rate_kg_m2, n_percent, ...given({ p2o5_percent }) })
      : undefined;
  const { n_kg_m2, p2o5_kg_m2 } = told?.value ?? {};
  const date = step.from < today ? today : step.from;
  return step.zoneIds.map((zone) => ({
    ...{ id: step.id, date, zone, sort: product?.sort ?? sort },
    ...given({ product: product?.id, slow_n_share: product?.slow_n_share, rate_kg_m2, n_kg_m2, p2o5_kg_m2 }),
  }));
}

/** What each step would break if it were done on the first day it is for, by its id. */
export type Broken = ReadonlyMap<string, readonly Breach[]>;

export function followComing(engine: Engine, asking: () => ComingAsking | null): Followed<Answer<Broken>> {
  async function work(now: Asked): Promise<Answer<Broken>> {
    const held = await engine.call("limits.rules", now.rules);
    if (held.error) return held;
    const there = new Set(now.zones.map(({ id }) => id));
    const planned: CheckJob[] = [];
    for (const step of now.steps) planned.push(...(await jobsOf(engine, step, now)));
    const jobs = planned.filter(({ zone }) => there.has(zone));
    const said = await engine.call("limits.check", {
      jobs: [...doneJobs(now.entries, now.today, [...there]), ...jobs],
      zones: checkZones(now.zones, now.entries, now.today),
      rules: heldRules(held.value),
      ...given({ place: held.value.places[0] }),
      products: checkProducts(now.products),
      soil_tests: soilTests(now.entries),
      days: now.days,
    });
    if (said.error) return said;
    const mine = new Map(
      now.steps.map(({ id }) => [id, said.value.breaches.filter(({ job }) => job === id)] as const),
    );
    return { ...said, value: mine };
  }
  return follow(work, () => {
    const now = asking();
    return now?.steps.length ? now : null;
  });
}
