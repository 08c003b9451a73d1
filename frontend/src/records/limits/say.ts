/** A broken rule in plain words: its name, what was found beside what is allowed, who says so. */
import { count, length, nitrogen, percent, rain, rate, type System, temperature } from "../../format";
import { saySource } from "../grasses";
import type { Breach, BreachKind } from "./check";

const TITLES: Record<BreachKind, string> = {
  quick_once: "Too much quick-release nitrogen at once",
  all_once: "Too much nitrogen at once",
  gentle_once: "Too much nitrogen for this grass",
  quick_days: "Too much quick-release nitrogen",
  all_days: "Too much nitrogen",
  year: "Too much nitrogen for one year",
  slow_least: "Too little slow-release nitrogen",
  phosphate: "Phosphate without a soil test",
  phosphate_once: "Too much phosphate at once",
  phosphate_year: "Too much phosphate for one year",
  label_interval: "Too soon by the label",
  label_uses: "Too many uses by the label",
  label_year: "Too much in a year by the label",
  label_rate: "Over the label rate",
  spacing_quick: "Fed too recently",
  spacing_slow: "Fed too recently",
  closed: "Feeding is closed now",
  summer_ban: "Summer ban",
  pesticide_ban: "Banned at home here",
  water: "Too near water",
  frozen: "Frozen ground",
  saturated: "Wet ground",
  heat: "Too hot for a quick feed",
  cold: "Soil too cold for a quick feed",
  drought: "Too dry for a quick feed",
  water_in: "Water it in today",
  seed_after_pre: "Seed may not come up yet",
  pre_after_seed: "Too soon after seeding",
  young: "Too soon on new grass",
  pre_twice: "Second pre-emergent too soon",
  lime_once: "Too much lime at once",
  lime_twice: "Limed too recently",
  lime_nitrogen: "Lime and quick-release nitrogen together",
};

export const breachTitle = (kind: BreachKind): string => TITLES[kind] ?? kind.replaceAll("_", " ");

/** The weather of the day speaks here, which a person can look at. */
const WEATHER: readonly BreachKind[] = ["frozen", "saturated", "heat", "cold", "drought"];
export const isWeather = (kind: BreachKind): boolean => WEATHER.includes(kind);

const UNITS: Record<string, (value: number, system: System) => string> = {
  "kg N/m2": (value, system) => nitrogen(value, system).text,
  "kg/m2": (value, system) => rate(value, system).text,
  days: (value) => count(value, "day").text,
  uses: (value) => count(value, "use").text,
  C: (value, system) => temperature(value, system).text,
  mm: (value, system) => rain(value, system).text,
  m: (value, system) => length(value, system).text,
  share: (value) => percent(value).text,
};

/** Kinds where the rule's figure is the least, not the most. */
const LEAST: readonly BreachKind[] = [
  ...(["label_interval", "spacing_quick", "spacing_slow", "slow_least", "water", "cold", "drought"] as const),
  ...([
    "water_in",
    "seed_after_pre",
    "pre_after_seed",
    "young",
    "pre_twice",
    "lime_twice",
    "lime_nitrogen",
  ] as const),
];

/** "11 days. Allowed is 42 days or more."; empty where nothing is measured. */
export function breachFigures({ kind, figure, ceiling, unit }: Breach, system: System): string {
  const say = unit ? UNITS[unit] : undefined;
  if (!say || ceiling === null) return "";
  const allowed = LEAST.includes(kind) ? `${say(ceiling, system)} or more` : `up to ${say(ceiling, system)}`;
  return `${figure === null ? "" : `${say(figure, system)}. `}Allowed is ${allowed}.`;
}

const WHO: Record<string, string> = {
  label: "the label",
  "common practice": "common practice",
  "entered by you": "entered by you",
  "from memory": "from memory, check it",
};

/** "Source: Minnesota law, 2004." */
export function breachSource({ source, since }: Breach): string {
  return `Source: ${[WHO[source] ?? saySource(source), since].filter(Boolean).join(", ")}.`;
}
