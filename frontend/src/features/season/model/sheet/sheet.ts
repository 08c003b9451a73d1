/** The year's sheet as this phone has it: the book goes to the engine, what it answers is drawn. */
import { computed, signal } from "@preact/signals";
import type { Answer, Args, Refusal, Value } from "../../../../platform/engine";
import { type Engine, follow } from "../../../../platform/engine/ask";
import type { Row, Store } from "../../../../platform/store/types";
import { given, isWithin, type Totals } from "../../../../records/entries";
import { groupOf } from "../../../../records/groups";
import { clashEntry } from "../../../../records/log/clash-entries";
import { standingIn } from "../../../../records/log/read";
import {
  type Asked,
  askedOf,
  isSouthern,
  type Kept,
  keptSteps,
  planRow,
  wishesOf,
  yearStart,
} from "../plan/book";
import { TABLES } from "../plan/tables";

export type SheetArgs = Args<"season.sheet">;
export type MovedArgs = Args<"season.moved">;
type Rules = MovedArgs["rules"];

export interface SheetParts {
  store: Store;
  engine: Engine;
  day: () => string;
  me: () => string | undefined;
  household: () => Row | undefined;
  /** What the log adds up to; nothing until it was asked for. */
  totals: () => Totals | undefined;
}

interface Base {
  asked: Asked | undefined;
  steps: SheetArgs["steps"];
  products: MovedArgs["products"];
  zones: MovedArgs["zones"];
  entries: MovedArgs["entries"];
  soil_tests: NonNullable<MovedArgs["soil_tests"]>;
  place: string | undefined;
  own_rules: Args<"limits.rules">["own_rules"] | undefined;
  southern: boolean;
  first: string;
  today: string;
}

export interface Sheet {
  value: Value<"season.sheet">;
  /** What a move is asked with, less the move. */
  moving: Omit<MovedArgs, "move">;
  /** Nothing is known of the year's warmth: no need, no nitrogen coming free. */
  climateMissing: boolean;
}

const READ = ["plan", "step", "zone", "product", "entry", "household"];
/** As far back as any rule looks. */
const RULE_DAYS = 400;

const stepArgs = ({ id, job, zones, from_on, to_on, product, rate_kg_m2, locked, state }: Kept) => ({
  id,
  job,
  zones: [...zones],
  from: from_on,
  to: to_on,
  locked,
  state,
  ...given({ product, rate_kg_m2 }),
});

function productArgs(row: Row): MovedArgs["products"][number] {
  const { sort } = groupOf("product", row, "name");
  const { net_kg, coverage_m2 } = groupOf("product", row, "label");
  const { n_percent, p2o5_percent, slow_n_share, source } = groupOf("product", row, "analysis");
  const { interval_days, uses_year, seed_wait_days } = groupOf("product", row, "caution");
  const label = given({ sort, net_kg, coverage_m2, n_percent, p2o5_percent, slow_n_share });
  return { id: row.id, ...label, ...given({ source, interval_days, uses_year, seed_wait_days }) };
}

export function createSheet({ store, engine, day, me, household, totals }: SheetParts) {
  const loaded = computed(() => READ.every((t) => store.loaded(t).value));
  const chosen = signal<string | undefined>(undefined);

  const southern = () => isSouthern(household());
  const kept = computed(() => keptSteps(store));
  /** First days of the years that hold a step or today, the earliest first. */
  const years = computed(() => {
    const days = [day(), ...kept.value.map(({ from_on }) => from_on)];
    return [...new Set(days.map((one) => yearStart(one, southern())))].sort();
  });
  /** The year chosen, else that of the next step to be done, else of today. */
  const year = computed(() => {
    const picked = chosen.value;
    if (picked && years.value.includes(picked)) return picked;
    const next = kept.value.find(({ state, to_on }) => state === "planned" && to_on >= day());
    return yearStart(next?.from_on ?? day(), southern());
  });

  function zoneArgs(row: Row): MovedArgs["zones"][number] {
    const { area_m2 } = groupOf("zone", row, "ground");
    const { grass } = groupOf("zone", row, "grass");
    const { sun, near_water, setback_m } = groupOf("zone", row, "site");
    const turf = TABLES.grasses.find(({ key }) => key === grass)?.season;
    const shade = sun === "shade" || undefined;
    return {
      id: row.id,
      ...given({ area_m2, grass, turf, near_water, setback_m, shade, mows: mowsOf(row.id) }),
    };
  }

  const mowsOf = (zoneId: string) =>
    standingIn(store, "mow")
      .filter((one) => !one.sick.length && one.zoneIds.includes(zoneId) && isWithin(one, day(), RULE_DAYS))
      .map(({ at }) => at);

  function base(): Base | null {
    const sums = totals();
    if (!loaded.value || !sums) return null;
    const home = household();
    const today = day();
    const starts = year.value;
    const { rules_place, own_rules } = groupOf("household", home, "rules");
    const wishes = wishesOf(planRow(store, starts));
    const spread = standingIn(store, "spread").filter(
      (one) => !one.sick.length && isWithin(one, today, RULE_DAYS),
    );
    return {
      asked: askedOf({ store, household: home, totals: sums, today }, wishes),
      steps: kept.value.map(stepArgs),
      products: store.rows("product").value.map(productArgs),
      zones: store.rows("zone").value.map(zoneArgs),
      entries: spread.map((entry) => clashEntry(entry, me())),
      soil_tests: standingIn(store, "soil_test")
        .filter(({ sick }) => !sick.length)
        .flatMap(testArgs),
      place: TABLES.places.some(({ key }) => key === rules_place) ? rules_place : undefined,
      own_rules: Array.isArray(own_rules) ? own_rules : undefined,
      southern: southern(),
      first: starts,
      today,
    };
  }

  async function rulesOf({
    place,
    own_rules,
    southern,
  }: Base): Promise<{ value: Rules; error?: undefined } | Refusal> {
    const { rules, places, grasses, general } = TABLES;
    const asked = { rules, places, grasses, general, southern, ...given({ place, own_rules }) };
    const said = await engine.call("limits.rules", asked as Args<"limits.rules">);
    return said.error ? said : { value: said.value.rules as Rules };
  }

  async function work(of: Base): Promise<Answer<Sheet>> {
    const gathered = of.asked && (await engine.call("season.arguments", of.asked));
    if (gathered?.error) return gathered;
    const rules = gathered ? { value: gathered.value.rules as Rules } : await rulesOf(of);
    if ("error" in rules && rules.error) return rules;
    const { steps, products, zones, entries, soil_tests, place, first, today } = of;
    const plan = gathered?.value.plan;
    const climate = plan?.climate as SheetArgs["climate"] | undefined;
    const said = await engine.call("season.sheet", {
      groups: (plan?.groups ?? []) as SheetArgs["groups"],
      done: (plan?.done ?? []) as SheetArgs["done"],
      ...{ zones, products, steps, first, today },
      ...(climate ? { climate } : {}),
    } as SheetArgs);
    if (said.error) return said;
    const warmth = climate && { ...climate, jobs: undefined };
    const moving = {
      steps,
      products,
      entries,
      zones,
      soil_tests,
      today,
      rules: (rules as { value: Rules }).value,
    };
    const value: Sheet = {
      value: said.value,
      moving: { ...moving, ...given({ place, climate: warmth && withoutJobs(warmth) }) } as Sheet["moving"],
      climateMissing: !of.asked,
    };
    return { ...said, value };
  }

  return {
    loaded,
    kept,
    years,
    year,
    choose: (starts: string) => {
      chosen.value = starts;
    },
    answer: follow(work, base, { keep: true, after: [store.loaded("entry")] }),
  };
}

function withoutJobs({ jobs: _, ...warmth }: object & { jobs?: unknown }): object {
  return warmth;
}

/** A soil test as rules read it: of each zone it names, or of the whole yard. */
function testArgs({
  at,
  zoneIds,
  body,
}: {
  at: string;
  zoneIds: readonly string[];
  body: Record<string, unknown>;
}) {
  const { p_mg_kg, p_method } = body;
  const told = { date: at.slice(0, 10), ...given({ p_mg_kg, p_method }) };
  return (zoneIds.length ? zoneIds.map((zone) => ({ ...told, zone })) : [told]) as NonNullable<
    MovedArgs["soil_tests"]
  >;
}

export type SheetModel = ReturnType<typeof createSheet>;
