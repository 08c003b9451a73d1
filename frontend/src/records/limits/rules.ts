/** The rules that hold in this yard: the published rows and the household's own, handed to the engine, which picks. */
import grasses from "../../../../fixtures/published/grasses.json";
import table from "../../../../fixtures/published/places.json";
import type { Args, Value } from "../../platform/engine/types";
import type { Row } from "../../platform/store/types";
import { given } from "../entries";
import { groupOf } from "../groups";

export type RulesValue = Value<"limits.rules">;
export type HeldRule = RulesValue["rules"][number];
export type RuleKind = HeldRule["kind"];
export type OwnRule = NonNullable<Args<"limits.rules">["own_rules"]>[number];

export interface RulesGroup {
  rules_place?: string;
  own_rules?: readonly OwnRule[];
}

export interface RulePlace {
  key: string;
  name: string;
  country: string;
}

/** Where a yard may lie, as they are listed to choose from. */
export const PLACES: readonly RulePlace[] = table.places;

type Printed = Args<"limits.rules">["rules"];
type Grasses = NonNullable<Args<"limits.rules">["grasses"]>;
type General = NonNullable<Args<"limits.rules">["general"]>;

/** Of the zones that there are: rules of a year go by the grass. */
function years(zones: readonly Row[]): Pick<Args<"limits.rules">, "grasses" | "general"> {
  const grown = zones.map((zone) => groupOf("zone", zone, "grass").grass);
  const found = grasses.grasses.filter(({ key }) => grown.includes(key));
  const known = new Set(found.map(({ key }) => key));
  const strangers = grown.some((key) => !key || !known.has(key));
  const general = grasses.lawns_in_general.nitrogen_year_rows as General;
  return { grasses: found as unknown as Grasses, ...(strangers ? { general } : {}) };
}

/** What the household says of its rules. */
export const rulesOf = (household: Row | undefined): RulesGroup =>
  groupOf("household", household, "rules") as RulesGroup;

/** `limits.rules`. A place that only a later build knows is none: then the strictest hold. */
export function rulesArgs(household: Row | undefined, zones: readonly Row[]): Args<"limits.rules"> {
  const { rules_place, own_rules } = rulesOf(household);
  const { latitude_deg } = groupOf("household", household, "place");
  const place = PLACES.some(({ key }) => key === rules_place) ? rules_place : undefined;
  return {
    rules: table.rules as Printed,
    places: table.places,
    ...given({ place, own_rules }),
    ...years(zones),
    southern: (latitude_deg ?? 0) < 0,
  };
}
