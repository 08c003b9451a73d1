/** What each kind of rule is held against: its fields, their names on the screen, and what they may hold. */
import type { Limits } from "../../../../records/kinds";
import type { OwnRule, RuleKind } from "../../../../records/limits/rules";

/** A figure of a rule, by the engine's name. */
export type FigureName = Extract<
  keyof OwnRule,
  | "most_kg_m2"
  | "over_days"
  | "within_years"
  | "p_mg_kg"
  | "limit_c"
  | "limit_mm"
  | "clear_m"
  | "guarded_m"
  | "least_slow_share"
>;

export interface RuleField {
  name: FigureName;
  label: string;
  /** It may be left blank. */
  optional?: true;
}

export interface KindOfRule {
  title: string;
  group: "nitrogen" | "phosphate" | "dates" | "ground" | "between" | "lime";
  fields: readonly RuleField[];
  /** Of each year, from a day to a day. */
  dated?: true;
}

/** As the engine takes them (`limits.rules`, its docstring); of nitrogen it is kg N/m2 by another name. */
const HELD: Record<FigureName, { unit: string; low: number; high: number }> = {
  most_kg_m2: { unit: "kg/m2", low: 0, high: 50 },
  over_days: { unit: "day", low: 0, high: 400 },
  within_years: { unit: "year", low: 0, high: 20 },
  p_mg_kg: { unit: "mg/kg", low: 0, high: 5000 },
  limit_c: { unit: "C", low: -20, high: 50 },
  limit_mm: { unit: "mm", low: 0, high: 500 },
  clear_m: { unit: "m", low: 0, high: 100 },
  guarded_m: { unit: "m", low: 0, high: 100 },
  least_slow_share: { unit: "share", low: 0, high: 1 },
};

const most: RuleField = { name: "most_kg_m2", label: "Most allowed" };
const days: RuleField = { name: "over_days", label: "Days" };
const slow: RuleField = { name: "least_slow_share", label: "Counts as slow-release from" };
const wait = (title: string, group: KindOfRule["group"] = "between"): KindOfRule => ({
  title,
  group,
  fields: [{ name: "over_days", label: "Days to wait" }],
});
const once = (title: string, group: KindOfRule["group"]): KindOfRule => ({ title, group, fields: [most] });
const rainy = (title: string, more: readonly RuleField[]): KindOfRule => ({
  title,
  group: "ground",
  fields: [{ name: "limit_mm", label: "Rain" }, ...more],
});
const warm = (title: string): KindOfRule => ({
  title,
  group: "ground",
  fields: [{ name: "limit_c", label: "Temperature" }, slow],
});

export const RULE_KINDS: Readonly<Record<RuleKind, KindOfRule>> = {
  quick_once: once("Quick nitrogen at once", "nitrogen"),
  all_once: once("Nitrogen at once", "nitrogen"),
  gentle_once: once("Nitrogen at once, gentle or new grass", "nitrogen"),
  quick_days: {
    title: "Quick nitrogen adds up",
    group: "nitrogen",
    fields: [days, { ...most, optional: true }],
  },
  all_days: { title: "Nitrogen adds up", group: "nitrogen", fields: [days, { ...most, optional: true }] },
  year: once("Nitrogen in a year", "nitrogen"),
  slow_least: {
    title: "Slow-release share",
    group: "nitrogen",
    fields: [{ name: "least_slow_share", label: "Least slow-release" }],
  },
  phosphate: {
    title: "Phosphate needs a soil test",
    group: "phosphate",
    fields: [
      { name: "within_years", label: "Years a test counts" },
      { name: "p_mg_kg", label: "Soil phosphorus up to", optional: true },
    ],
  },
  phosphate_once: once("Phosphate at once", "phosphate"),
  phosphate_year: once("Phosphate in a year", "phosphate"),
  closed: { title: "Feeding closed", group: "dates", fields: [], dated: true },
  summer_ban: { title: "Summer ban", group: "dates", fields: [], dated: true },
  pesticide_ban: { title: "Pesticide ban", group: "dates", fields: [] },
  water: {
    title: "Clear of water",
    group: "ground",
    fields: [
      { name: "clear_m", label: "Distance" },
      { name: "guarded_m", label: "With a drop spreader or deflector", optional: true },
    ],
  },
  frozen: {
    title: "Frozen ground",
    group: "ground",
    fields: [{ name: "limit_c", label: "Soil at or below" }],
  },
  saturated: rainy("Wet ground", [days]),
  heat: warm("Heat, cool-season grass"),
  cold: warm("Cold soil, warm-season grass"),
  drought: rainy("Dry ground", [days, { name: "limit_c", label: "Warmer than" }, slow]),
  water_in: rainy("Watering in", [slow]),
  spacing_quick: wait("After a quick feed"),
  spacing_slow: wait("After a slow-release feed"),
  seed_after_pre: wait("Seed after pre-emergent"),
  pre_after_seed: wait("Pre-emergent after seed"),
  young: wait("Weed killer on new grass"),
  pre_twice: wait("Pre-emergent again"),
  lime_once: once("Lime at once", "lime"),
  lime_twice: wait("Lime again", "lime"),
  lime_nitrogen: wait("Lime and quick nitrogen", "lime"),
};

/** What a kind that only a later build knows is drawn by. */
export const kindOf = (kind: string): KindOfRule =>
  (RULE_KINDS as Readonly<Record<string, KindOfRule>>)[kind] ?? {
    title: kind.replaceAll("_", " "),
    group: "ground",
    fields: [],
  };

const isNitrogen = (kind: string): boolean => kindOf(kind).group === "nitrogen";

/** A field as the form and its checks take it. */
export function limitsOf(kind: string, { name, label, optional }: RuleField): Limits {
  const { unit, low, high } = HELD[name];
  const said = name === "most_kg_m2" && isNitrogen(kind) ? "kg N/m2" : unit;
  return { type: "number", label, unit: said, low, high, required: !optional };
}
