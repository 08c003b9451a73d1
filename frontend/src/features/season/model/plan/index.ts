/** The plan of the year as this phone makes and keeps it. */
import { computed, signal } from "@preact/signals";
import type { Recorded } from "../../../../forms/recorded";
import { session } from "../../../../platform/session/session";
import { beginSolve } from "../../../../platform/solver";
import { groupOf } from "../../../../records/groups";
import { day, engine, ready, store, system, totals } from "../../../../records/live";
import {
  askedOf,
  climateOf,
  isSouthern,
  keptSteps,
  type PlanWishes,
  planId,
  planRow,
  wishesOf,
  yearStart,
} from "./book";
import { type Change, changesBetween } from "./changes";
import { keepPlan } from "./keeping";
import { createPlanning, type Gathered } from "./planning";
import type { WhatIf } from "./what-if";
import { createWishesForm } from "./wishes";

/** What was wished last and is not kept yet: it outlives the app. */
const WISHED = "season:wishes";

export const planning = createPlanning({ engine, solve: beginSolve });

const householdId = () => session.value?.household.id;
const household = computed(() => {
  const id = householdId();
  return id ? store.row("household", id).value : undefined;
});
const southern = computed(() => isSouthern(household.value));
const startsOn = computed(() => yearStart(day(), southern.value));
const standingPlan = computed(() => planRow(store, startsOn.value));

/** Steps as the book keeps them, by their days. */
export const steps = computed(() => keptSteps(store));
export const climateKnown = computed(() => climateOf(household.value) !== undefined);
/** Everything that a plan is made from has been read, what the log adds up to among it. */
export const loaded = computed(
  () =>
    totals.value !== undefined &&
    ["household", "zone", "product", "plan", "step", "entry"].every((t) => store.loaded(t).value),
);
/** What the plan that is shown was asked with. */
export const asked = signal<PlanWishes>({});
/** The what-if that it answers, in words; blank where it is meant to be kept. */
export const supposed = signal("");
export const standingWishes = computed(() => wishesOf(standingPlan.value));

function askedFor(wishes: PlanWishes) {
  const known = totals.value?.value;
  if (!known) return undefined;
  return askedOf({ store, household: household.value, totals: known, today: day() }, wishes);
}

/** Plans with these wishes; they are kept aside until the plan itself is kept. */
export async function begin(wishes: PlanWishes): Promise<void> {
  const args = askedFor(wishes);
  if (!args) return;
  asked.value = wishes;
  supposed.value = "";
  await store.drafts.put(WISHED, wishes).catch(() => undefined);
  void planning.run(args);
}

/** Plans with one wish changed, beside the kept plan: what was wished stays as it was unless the answer is kept. */
export function lookAside({ wishes, says }: WhatIf): void {
  const args = askedFor(wishes);
  if (!args) return;
  asked.value = wishes;
  supposed.value = says;
  void planning.run(args);
}

export const wishesForm = () =>
  createWishesForm({
    store,
    system,
    ready,
    last: async () => (await store.drafts.get<PlanWishes>(WISHED)) ?? wishesOf(standingPlan.peek()),
    begin,
  });

const reached = ({ plan }: Gathered): ReadonlySet<string> =>
  new Set(plan.groups.flatMap(({ zones }) => zones));

/** The plan that was found beside the kept one. */
export const changes = computed<Change[]>(() => {
  const shown = planning.shown.value;
  return shown ? changesBetween(shown.plan.steps, steps.value, reached(shown.gathered), day()) : [];
});

/** The plan and all of its steps at once. */
export async function keep(): Promise<Recorded> {
  const [id, row] = [householdId(), standingPlan.peek()];
  const mine = row && groupOf("plan", row, "year").starts_on === startsOn.peek() ? row : undefined;
  const made = await keepPlan(store, {
    planId: mine?.id ?? planId(id ?? "", startsOn.peek()),
    row: mine,
    startsOn: startsOn.peek(),
    southern: southern.peek(),
    wishes: asked.peek(),
    changes: changes.peek(),
  });
  await store.drafts.remove(WISHED).catch(() => undefined);
  planning.clear();
  return made;
}
