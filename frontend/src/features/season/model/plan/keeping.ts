/** Keeps a plan: its wishes and its steps in one op, so that no phone ever sees half of it. */
import { type Recorded, record } from "../../../../forms/recorded";
import type { Mutation, Row, Store } from "../../../../platform/store/types";
import type { PlanWishes } from "./book";
import { type Change, type Found, sundayOf } from "./changes";

interface ToKeep {
  planId: string;
  /** The plan's record where this year has one. */
  row: Row | undefined;
  startsOn: string;
  southern: boolean;
  wishes: PlanWishes;
  changes: readonly Change[];
}

type Sets = Record<string, object>;

const there = (fields: Record<string, unknown>): object =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));

export function planSets({
  startsOn,
  southern,
  wishes,
}: Pick<ToKeep, "startsOn" | "southern" | "wishes">): Sets {
  const { level, clippings, budget, evenings_week, minutes_evening, only_gentle, skip_months } = wishes;
  return {
    year: { starts_on: startsOn, southern },
    aim: there({ level: level ?? "middle", clippings }),
    budget: there({ budget }),
    time: there({ evenings_week, minutes_evening }),
    gentle: { only_gentle: only_gentle === true },
    skip: { skip_months: skip_months ?? [] },
  };
}

/** Where and when a step is, and with what. */
function placeSets({ zones, group, date, product, rate_kg_m2 }: Found): Sets {
  return {
    ground: { zone_ids: zones, feeding_group: group },
    window: { from_on: date, to_on: sundayOf(date) },
    ...(product && rate_kg_m2 > 0 ? { product: { product_id: product, rate_kg_m2 } } : {}),
  };
}

function newSets(planId: string, step: Found): Sets {
  return {
    job: { plan_id: planId, job: step.sort },
    ...placeSets(step),
    lock: { locked: false },
    state: { state: "planned" },
  };
}

const marked = (t: "step" | "plan", id: string, deleted: boolean): Mutation => ({
  t,
  id,
  set: { deleted: { deleted } },
});

/** Groups laid over what a record of a later build may hold beside them. */
function over(row: Row | undefined, set: Sets): Sets {
  const laid = Object.entries(set).map(([name, value]) => [name, { ...extra(row, name, value), ...value }]);
  return Object.fromEntries(laid);
}

const OPTIONAL = new Set([
  "clippings",
  "budget",
  "evenings_week",
  "minutes_evening",
  "rate_typed",
  "entry_id",
]);

function extra(row: Row | undefined, name: string, value: object): object {
  const standing = Object.entries(row?.groups[name]?.value ?? {});
  return Object.fromEntries(standing.filter(([field]) => !(field in value) && !OPTIONAL.has(field)));
}

const before = (row: Row, set: Sets): Sets =>
  Object.fromEntries(Object.keys(set).map((name) => [name, row.groups[name]?.value ?? {}]));

/** What is written, and what takes it back. */
export function mutationsOf(keep: ToKeep, newId: () => string): [Mutation[], Mutation[]] {
  const set = over(keep.row, planSets(keep));
  const writes: Mutation[] = [{ t: "plan", id: keep.planId, set }];
  const backs: Mutation[] = [
    keep.row ? { t: "plan", id: keep.planId, set: before(keep.row, set) } : marked("plan", keep.planId, true),
  ];
  for (const change of keep.changes) {
    if (change.what === "new") {
      const id = newId();
      writes.push({ t: "step", id, set: newSets(keep.planId, change.step) });
      backs.push(marked("step", id, true));
    } else if (change.what === "moved") {
      const { row } = change.was;
      const moved = over(row, { ...placeSets(change.step), state: { state: "planned" } });
      writes.push({ t: "step", id: row.id, set: moved });
      backs.push({ t: "step", id: row.id, set: before(row, moved) });
    } else if (change.what === "gone") {
      writes.push(marked("step", change.was.id, true));
      backs.push(marked("step", change.was.id, false));
    }
  }
  return [writes, backs];
}

export async function keepPlan(store: Store, keep: ToKeep): Promise<Recorded> {
  const [writes, backs] = mutationsOf(keep, () => store.newId());
  return record(store, writes, backs);
}
