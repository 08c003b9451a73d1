/** What a person does to one step of the kept plan: lock it, put it off, take it out. */
import { type Recorded, record, recordRemoval } from "../../../../forms/recorded";
import type { Store } from "../../../../platform/store/types";
import type { Kept } from "./book";

export type StepAct = "lock" | "unlock" | "put_off" | "plan" | "remove";

const SETS: Record<Exclude<StepAct, "remove">, Record<string, object>> = {
  lock: { lock: { locked: true } },
  unlock: { lock: { locked: false } },
  put_off: { state: { state: "put_off" }, lock: { locked: false } },
  plan: { state: { state: "planned" } },
};

export function change(store: Store, { id, row }: Kept, act: StepAct): Promise<Recorded> {
  if (act === "remove") return recordRemoval(store, "step", id);
  const set = SETS[act];
  const before = Object.keys(set).map((group) => [group, row.groups[group]?.value ?? {}]);
  return record(store, [{ t: "step", id, set }], [{ t: "step", id, set: Object.fromEntries(before) }]);
}
