/** A rule in plain words: its figure, who says so, as of when. */
import {
  count,
  date,
  length,
  nitrogen,
  percent,
  rain,
  rate,
  type System,
  soilContent,
  temperature,
} from "../../../../format";
import { saySource } from "../../../../records/grasses";
import type { HeldRule, OwnRule } from "../../../../records/limits/rules";
import { kindOf } from "./fields";
import { sayDay } from "./year-day";

/** A rule as it holds, or as it was entered. */
export type AnyRule = { [K in keyof OwnRule]?: OwnRule[K] | null } & { kind: string };

const days = (n: number): string => count(n, "day").text;

function sayMost({ kind, most_kg_m2 }: AnyRule, system: System): string | undefined {
  if (typeof most_kg_m2 !== "number") return undefined;
  return (kindOf(kind).group === "nitrogen" ? nitrogen : rate)(most_kg_m2, system).text;
}

function sayDated({ from, to }: AnyRule): string {
  return from && to ? `${sayDay(from)} to ${sayDay(to)}` : "";
}

const SORTS: Record<string, string> = { pre_emergent: "Pre-emergent", post_emergent: "Weed killer" };

const SAYS: Record<string, (rule: AnyRule, system: System) => string> = {
  quick_days: (rule, system) => addsUp(rule, system),
  all_days: (rule, system) => addsUp(rule, system),
  slow_least: ({ least_slow_share }) => `At least ${percent(least_slow_share ?? 0).text}`,
  phosphate: ({ within_years, p_mg_kg }, system) =>
    [
      `A test counts for ${count(within_years ?? 0, "year").text}`,
      typeof p_mg_kg === "number" ? `up to ${soilContent(p_mg_kg, system).text} in the soil` : "",
    ]
      .filter(Boolean)
      .join(", "),
  closed: sayDated,
  summer_ban: sayDated,
  pesticide_ban: ({ sort }) => (sort ? (SORTS[sort] ?? sort) : "Weed killers and pre-emergents"),
  water: ({ clear_m, guarded_m }, system) =>
    [
      `Keep ${length(clear_m ?? 0, system).text} clear`,
      typeof guarded_m === "number"
        ? `${length(guarded_m, system).text} with a drop spreader or deflector`
        : "",
    ]
      .filter(Boolean)
      .join(", "),
  frozen: ({ limit_c }, system) => `Not at ${temperature(limit_c ?? 0, system).text} in the soil or less`,
  saturated: ({ limit_mm, over_days }, system) =>
    `Not after ${rain(limit_mm ?? 0, system).text} in ${days(over_days ?? 1)}`,
  heat: ({ limit_c }, system) => `No quick feed in a week over ${temperature(limit_c ?? 0, system).text}`,
  cold: ({ limit_c }, system) => `No quick feed in soil under ${temperature(limit_c ?? 0, system).text}`,
  drought: ({ limit_mm, over_days }, system) =>
    `No quick feed after less than ${rain(limit_mm ?? 0, system).text} in ${days(over_days ?? 1)}`,
  water_in: ({ limit_mm }, system) => `Quick feeds need ${rain(limit_mm ?? 0, system).text} the same day`,
};

function addsUp(rule: AnyRule, system: System): string {
  const most = sayMost(rule, system);
  return `Over ${days(rule.over_days ?? 0)}${most ? `, at most ${most}` : ""}`;
}

/** The rule's figure: "At most 0.5 lb N/1,000 ft²", "Wait 42 days". */
export function sayRule(rule: AnyRule, system: System): string {
  const own = SAYS[rule.kind];
  if (own) return own(rule, system);
  const most = sayMost(rule, system);
  if (most) return `At most ${most}`;
  return typeof rule.over_days === "number" ? `Wait ${days(rule.over_days)}` : "";
}

/** Who says so: an institution and its title, or what is no print. */
export function sayWho(source: string): string {
  if (source === "from memory") return "From memory. Check it.";
  if (source === "common practice") return "Common practice";
  if (source === "entered by you") return "Entered by you";
  return source === "label" ? "The label" : saySource(source);
}

/** "2013", or a day in a person's words. */
export const sayAsOf = (written: string | null | undefined): string =>
  written ? (/^\d{4}-\d\d-\d\d$/.test(written) ? date(written) : written) : "";

/** Source and date in a line. */
export const sayOrigin = ({ source, date: as }: Pick<HeldRule, "source" | "date">): string =>
  [sayWho(source), sayAsOf(as)].filter(Boolean).join(", ");
