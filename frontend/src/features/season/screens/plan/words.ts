/** A plan in words: jobs, reasons, how good it is known to be, what it lacks. */
import { date, dayMonth, mass, money, nitrogen, rate, type System } from "../../../../format";
import { named, nameOf, sayZones } from "../../../../records/log/named";
import type { Kept } from "../../model/plan/book";
import type { Change, Found } from "../../model/plan/changes";
import type { Gathered, Plan, Progress } from "../../model/plan/planning";

type Why = Found["why"][number];

const between = ({ since, until }: Why): string => `${dayMonth(since ?? "")} to ${dayMonth(until ?? "")}`;

const WHY: Record<Why["why"], (why: Why, system: System) => string> = {
  need: (why, system) =>
    why.n_kg_m2 === null
      ? `It feeds the grass from ${between(why)}.`
      : `From ${between(why)} the grass needs ${nitrogen(why.n_kg_m2, system).text} of nitrogen.`,
  locked: () => "You locked it in this week.",
  now: () => "Its need begins now.",
  fed_until: (why) => `The feed of ${dayMonth(why.since ?? "")} lasts until ${dayMonth(why.until ?? "")}.`,
  closed: () => "A rule closes the week before.",
  skipped: () => "You skip the week before.",
  not_growing: () => "The week before, grass hardly grows.",
  heat: () => "The week before is too hot for it.",
  not_green: () => "The week before, the soil is too cool for warm-season grass.",
  cold: () => "The week before, the soil is too cold for it.",
  no_need_before: (why) => `Nothing is needed before ${dayMonth(why.until ?? "")}.`,
  dearer_sooner: () => "Earlier would cost more over the year.",
  in_shed: () => "Some of it is in the shed.",
  only_one: () => "No other product may go down then.",
  cheapest_nitrogen: () => "Its nitrogen costs least.",
  fits_whole: () => "It fits the rest of the plan best.",
  window: (why) => `Its window is ${between(why)}.`,
};

export const sayWhy = (why: Why, system: System): string => WHY[why.why](why, system);

type Unused = Plan["unused"][number];

const UNUSED: Record<Unused["why"], (one: Unused, system: System) => string> = {
  not_gentle: () => "You want only gentle products.",
  phosphate: () => "It has phosphate, and no soil test asks for any.",
  no_week: () => "No week that needs a feed suits it.",
  too_strong: ({ rate_kg_m2, most_kg_m2 }, system) =>
    `Too strong: the label says ${rate(rate_kg_m2, system).text}, the rules here allow ${rate(most_kg_m2 ?? 0, system).text} at once.`,
  little_need: () => "A feed would need less than a third of its label rate.",
};

export const sayUnused = (one: Unused, system: System): string => UNUSED[one.why](one, system);

/** "Week of 4 May". */
export const sayWeek = (day: string): string => `Week of ${date(day)}`;

export function sayFacts({ product, kg, zones }: Found, system: System): string {
  const amount = product ? `${mass(kg, system).text} ${named(product, "a product not on this phone")}, ` : "";
  return `${amount}${sayZones(zones)}`;
}

export function sayKept({ product, zones }: Kept): string {
  return [
    product && named(product, "a product not on this phone"),
    zones.length ? sayZones(zones) : "Whole yard",
  ]
    .filter(Boolean)
    .join(", ");
}

export function sayChange(change: Change): string | undefined {
  if (change.what === "new") return "New";
  if (change.what === "gone") return "Removed";
  if (change.what === "moved") return `Was ${dayMonth(change.was.from_on)}`;
  return undefined;
}

const costs = (bound: number, cost: number): string =>
  `No plan could cost less than ${money(bound).text}. This one costs ${money(cost).text}.`;

export function sayProgress({ cost, bound }: Progress): string {
  return bound === null ? `This plan costs ${money(cost).text}.` : costs(bound, cost);
}

export function saySure({ says, bound, weighed_cost }: Plan): string {
  if (says === "unknown" || bound === null) return "It is not known whether a plan could cost less.";
  if (says === "best") return `No plan could cost less. This one costs ${money(weighed_cost).text}.`;
  const known = costs(bound, weighed_cost);
  return says === "stopped" ? `The search ended early. ${known}` : known;
}

const LACKS: Record<string, string> = {
  area_m2: "Add its area.",
  turf: "Choose its grass.",
  sort: "Choose its type.",
  net_kg: "Add its net weight.",
  coverage_m2: "Add the area a bag covers.",
  n_percent: "Add its nitrogen.",
};

export interface Lacking {
  id: string;
  name: string;
  says: string;
  href: string;
}

const BARRED: Record<Gathered["barred_products"][number]["rule"], string> = {
  pesticide_ban: "A rule of your place bans it.",
  slow_least: "A rule of your place asks for more slow-release nitrogen.",
};

/** What a plan leaves out, each with the way to mend it. */
export function lackingIn({ lacking_zones, lacking_products, barred_products }: Gathered): Lacking[] {
  const zones = lacking_zones.map(({ id, lacks }) => ({
    id,
    name: named(id, "Unnamed zone"),
    says: LACKS[lacks] ?? "",
    href: `/ground/${id}/edit`,
  }));
  const products = lacking_products.map(({ id, lacks }) => ({
    id,
    name: named(id, "Unnamed product"),
    says: LACKS[lacks] ?? "",
    href: `/shed/product/${id}`,
  }));
  const barred = barred_products.map(({ id, rule }) => ({
    id,
    name: named(id, "Unnamed product"),
    says: BARRED[rule],
    href: "/season/rules",
  }));
  return [...zones, ...products, ...barred];
}

const ID = /[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}/g;

/** A rule's sentence: the engine knows grounds and products by their ids alone. A group is named by its zones. */
export function sayRule(says: string, { plan }: Gathered): string {
  const groups = new Map(plan.groups.map(({ id, zones }) => [id, sayZones(zones)]));
  return says.replace(ID, (id) => groups.get(id) ?? nameOf(id) ?? "something not on this phone");
}
