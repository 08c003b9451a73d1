/** Every sum of a job is the engine's (`spread.*`): what it is asked from a draft, and how it answers. */
import type { Args, Value } from "../../../platform/engine/types";
import { given } from "../../../records/entries";
import type { Hopper } from "../../../records/products";
import { analysisOf } from "./asks";
import type { PassDone, PassOnFoot, Plan } from "./types";

export type StandingValue = Value<"spread.standing">;
export type PourValue = Value<"spread.pour">;
/** A pass, or a stretch of it, closed. */
export type ClosedValue = Value<"spread.close_pass">;
export type FinishValue = Value<"spread.finish">;

function setOut({ load_kg, mass_kg: target_kg, passes }: Plan): Args<"spread.standing">["plan"] {
  return { load_kg, target_kg, passes };
}

function walkedOn({
  used_kg,
  left_kg,
  area_m2,
  added_kg,
  ran_out,
  nothing_came,
  parts,
}: PassDone): Args<"spread.standing">["passes"][number] {
  const stretches = parts.map((part) => ({ area_m2: part.area_m2, used_kg: part.used_kg }));
  return {
    used_kg,
    left_kg,
    area_m2,
    ...(added_kg > 0 ? { added_kg } : {}),
    ...(ran_out ? { ran_out } : {}),
    ...(nothing_came ? { nothing_came } : {}),
    ...(stretches.length ? { parts: stretches } : {}),
  };
}

export function standingArgs(plan: Plan, passes: readonly PassDone[]): Args<"spread.standing"> {
  return { plan: setOut(plan), passes: passes.map(walkedOn) };
}

/** `spread.standing` for the level at which the product should stand in the hopper by now. */
export function levelArgs(
  plan: Plan,
  { in_bag_kg }: PassOnFoot,
  { hopper, expected_kg }: { hopper: Hopper | undefined; expected_kg: number | null },
): Args<"spread.standing"> | null {
  const { bulk_density_kg_m3 } = plan.product;
  if (!hopper || !bulk_density_kg_m3 || expected_kg === null || expected_kg < 0) return null;
  const on_foot = { expected_kg, ...given({ in_bag_kg }) };
  return { plan: setOut(plan), passes: [], on_foot, hopper, bulk_density_kg_m3 };
}

export function pourArgs(
  plan: Plan,
  passes: readonly PassDone[],
  { added_kg, part, base }: PassOnFoot,
  poured: { added_kg?: number; in_bag_kg?: number },
): Args<"spread.pour"> {
  const on_foot = { added_kg, there_kg: part.there_kg, base_kg: base.kg };
  return { ...standingArgs(plan, passes), on_foot, ...poured };
}

/** `spread.finish`: each pass over the ground it covered, the zones in walking order. */
export function finishArgs(plan: Plan, passes: readonly PassDone[]): Args<"spread.finish"> {
  const zones = plan.zones.map(({ id, area_m2 }) => ({ id, area_m2 }));
  const { n_percent, p2o5_percent } = analysisOf(plan);
  const walked = passes.map((pass) => ({
    ...walkedOn(pass),
    ...(pass.out?.length ? { out: pass.out } : {}),
  }));
  return { plan: setOut(plan), passes: walked, zones, ...given({ n_percent, p2o5_percent }) };
}
