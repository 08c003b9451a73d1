/** What a plan is made from, read from the book: the arguments of `season.arguments`, and nothing worked out here. */
import type { Args } from "../../../../platform/engine";
import { sha256Hex } from "../../../../platform/store/core/sha256";
import type { Row, Store } from "../../../../platform/store/types";
import { type Entry, given, isAhead, type Totals, totalsEntry } from "../../../../records/entries";
import { groupOf } from "../../../../records/groups";
import type { PlanAim, PlanBudget, PlanGentle, PlanSkip, PlanTime } from "../../../../records/kinds.gen";
import { PLACES, rulesOf } from "../../../../records/limits/rules";
import { standingIn } from "../../../../records/log/read";
import { TABLES } from "./tables";

export type Asked = Args<"season.arguments">;
export type Wishes = NonNullable<Asked["wishes"]>;
type KeptStep = NonNullable<Asked["steps"]>[number];

/** A step of the book as lists and comparisons read it. */
export interface Kept {
  id: string;
  row: Row;
  job: KeptStep["job"];
  title: string | undefined;
  from_on: string;
  to_on: string;
  zones: readonly string[];
  product: string | undefined;
  rate_kg_m2: number | undefined;
  locked: boolean;
  state: "planned" | "done" | "put_off";
}

export function keptOf(row: Row): Kept | undefined {
  const { job, title } = groupOf("step", row, "job");
  const { from_on, to_on } = groupOf("step", row, "window");
  const { product_id, rate_kg_m2 } = groupOf("step", row, "product");
  if (!job || !from_on || !to_on) return undefined;
  return {
    id: row.id,
    row,
    job,
    title,
    from_on,
    to_on,
    zones: groupOf("step", row, "ground").zone_ids ?? [],
    product: product_id,
    rate_kg_m2,
    locked: groupOf("step", row, "lock").locked === true,
    state: groupOf("step", row, "state").state ?? "planned",
  };
}

/** Every step of the book by its days, whichever year's plan it was kept with. */
export const keptSteps = (store: Pick<Store, "rows">): Kept[] =>
  store
    .rows("step")
    .value.flatMap((row) => keptOf(row) ?? [])
    .sort((one, other) => one.from_on.localeCompare(other.from_on) || one.id.localeCompare(other.id));

/** The year that holds a day: it begins with the cold half, in January north and in July south. */
export function yearStart(today: string, southern: boolean): string {
  const year = Number(today.slice(0, 4));
  if (!southern) return `${year}-01-01`;
  return `${today.slice(5, 7) >= "07" ? year : year - 1}-07-01`;
}

/** One plan a household and year, however many phones begin it: its id follows from both (a UUID of form 8, RFC 9562). */
export function planId(householdId: string, startsOn: string): string {
  const hex = sha256Hex(`plan|${householdId}|${startsOn}`);
  const kind = ((Number.parseInt(hex.slice(16, 17), 16) & 3) | 8).toString(16);
  return [
    hex.slice(0, 8),
    hex.slice(8, 12),
    `8${hex.slice(13, 16)}`,
    kind + hex.slice(17, 20),
    hex.slice(20, 32),
  ].join("-");
}

/** The plan of this year, else the newest before it: what was wished then is where the next one starts. */
export function planRow(store: Pick<Store, "rows">, startsOn: string): Row | undefined {
  const begun = (row: Row) => groupOf("plan", row, "year").starts_on ?? "";
  const rows = store.rows("plan").value.filter((row) => begun(row) <= startsOn);
  return rows.sort(
    (one, other) => begun(other).localeCompare(begun(one)) || one.id.localeCompare(other.id),
  )[0];
}

export type PlanWishes = Partial<PlanAim & PlanBudget & PlanTime & PlanGentle & PlanSkip>;

export function wishesOf(row: Row | undefined): PlanWishes {
  return {
    ...groupOf("plan", row, "aim"),
    ...groupOf("plan", row, "budget"),
    ...groupOf("plan", row, "time"),
    ...groupOf("plan", row, "gentle"),
    ...groupOf("plan", row, "skip"),
  };
}

export function wishesAsked(wishes: PlanWishes): Wishes {
  const { level, clippings, budget, evenings_week, minutes_evening, only_gentle, skip_months } = wishes;
  return given({
    level,
    clippings,
    budget,
    evenings_week,
    minutes_evening,
    only_gentle,
    skip_months: Array.isArray(skip_months) ? (skip_months as number[]) : undefined,
  }) as Wishes;
}

/** The place's usual year; nothing where none was entered. */
export function climateOf(household: Row | undefined): Asked["climate"] | undefined {
  const { warmest_c, coldest_c, monthly_mean_c } = groupOf("household", household, "climate");
  if (Array.isArray(monthly_mean_c)) return { monthly_mean_c: monthly_mean_c as number[] };
  if (warmest_c === undefined || coldest_c === undefined) return undefined;
  return { warmest_c, coldest_c, southern: isSouthern(household) };
}

export const isSouthern = (household: Row | undefined): boolean =>
  (groupOf("household", household, "place").latitude_deg ?? 0) < 0;

function zoneAsked(row: Row): Asked["zones"][number] {
  const { area_m2 } = groupOf("zone", row, "ground");
  const { grass } = groupOf("zone", row, "grass");
  const { sun, near_water } = groupOf("zone", row, "site");
  return { id: row.id, ...given({ area_m2, grass, sun, near_water }) };
}

function productAsked(row: Row, totals: Totals): Asked["products"][number] {
  const { sort } = groupOf("product", row, "name");
  const { net_kg, coverage_m2 } = groupOf("product", row, "label");
  const { n_percent, p2o5_percent, slow_n_share } = groupOf("product", row, "analysis");
  const { interval_days } = groupOf("product", row, "caution");
  const { price } = groupOf("product", row, "price");
  const left_kg = totals.products[row.id]?.left_kg;
  const label = given({ sort, net_kg, coverage_m2, price, left_kg });
  return { id: row.id, ...label, ...given({ n_percent, p2o5_percent, slow_n_share, interval_days }) };
}

/** What was put down; how fast its nitrogen comes free is in the entry, too. */
const spreadAsked = (entry: Entry) => ({
  ...totalsEntry(entry),
  ...given({ slow_n_share: entry.body["slow_n_share"] }),
});

function stepAsked({ from_on, to_on, zones, product, job, locked, state }: Kept): KeptStep {
  return { from_on, to_on, zones, job, locked, state, ...given({ product }) };
}

export interface BookParts {
  store: Store;
  household: Row | undefined;
  totals: Totals;
  today: string;
}

/** Nothing where the climate is not known: no window of the year could be dated. */
export function askedOf(
  { store, household, totals, today }: BookParts,
  wishes: PlanWishes,
): Asked | undefined {
  const climate = climateOf(household);
  if (!climate) return undefined;
  const { rules_place, own_rules } = rulesOf(household);
  // A place that only a later build knows is none: then the strictest hold.
  const place = PLACES.some(({ key }) => key === rules_place) ? rules_place : undefined;
  const spread = standingIn(store, "spread").filter((one) => !one.sick.length && !isAhead(one, today));
  return {
    zones: store.rows("zone").value.map(zoneAsked),
    products: store.rows("product").value.map((row) => productAsked(row, totals)),
    entries: spread.map(spreadAsked),
    climate,
    today,
    tables: TABLES,
    wishes: wishesAsked(wishes),
    steps: keptSteps(store).map(stepAsked),
    ...given({ place, own_rules }),
  };
}
