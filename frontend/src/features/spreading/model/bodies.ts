/** The log entries a job writes, exactly as fixtures/kinds/ asks. */
import type { Mutation } from "../../../platform/store/types";
import { given } from "../../../records/entries";
import type { PassPart } from "../../../records/pass-history";
import { analysisOf } from "./asks";
import { lastDial } from "./steps";
import type { FinishValue } from "./sums";
import type { PassDone, PassOnFoot, Plan, Reading, SpreadDraft } from "./types";

interface Signed {
  occurred_at: string;
  by: string | undefined;
}

/** Flags are written only where they are true, lists only where there is something in them. */
const raised = (flags: Record<string, boolean>) =>
  Object.fromEntries(Object.entries(flags).filter(([, up]) => up));
const filled = (lists: Record<string, unknown[]>) =>
  Object.fromEntries(Object.entries(lists).filter(([, list]) => list.length));

/** A pass: the learning history. `parts` are its stretches where the dial was changed on the way. */
export function passBody(
  draft: SpreadDraft,
  plan: Plan,
  pass: PassOnFoot,
  { reading, parts }: { reading: Reading; parts: PassPart[] },
  signed: Signed,
): object {
  const { left_sd_kg: _, ran_out, nothing_came, ...read } = reading;
  const { swath_m, speed_m_s } = plan;
  const { added_kg, pattern, damp, checks, out = [] } = pass;
  return {
    kind: "pass",
    ...given({ ...signed }),
    zone_ids: plan.zones.map((zone) => zone.id),
    spread_id: draft.id,
    product_id: plan.product.id,
    ...given({ sort: plan.product.sort }),
    spreader_id: draft.spreader_id,
    number: pass.number,
    passes: plan.passes,
    pattern,
    dial: pass.dial,
    dial_scale: plan.dial,
    start_kg: pass.start_kg,
    ...(added_kg > 0 ? { added_kg } : {}),
    ...given({ granules: plan.product.granules, bulk_density_kg_m3: plan.product.bulk_density_kg_m3 }),
    ...read,
    ...raised({ ran_out, nothing_came, damp }),
    ...filled({ parts, checks, out }),
    ...given({ swath_m, speed_m_s }),
  };
}

/** The job: what the ledger and the stock count. */
export function spreadBody(
  draft: SpreadDraft,
  plan: Plan,
  passes: readonly PassDone[],
  whole: FinishValue,
  signed: Signed,
): object {
  return {
    kind: "spread",
    ...given({ ...signed }),
    zone_ids: whole.reached,
    product_id: plan.product.id,
    spreader_id: draft.spreader_id,
    aim: draft.aim,
    area_m2: plan.area_m2,
    target_kg_m2: plan.target_kg_m2,
    used_kg: whole.used_kg,
    ...given({
      sort: plan.product.sort,
      ...analysisOf(plan),
      last_dial: lastDial(passes),
    }),
    zones: whole.zones,
    pattern: draft.crossing,
    passes: passes.length,
    ...filled({ answered: plan.answered ?? [] }),
    ...given({ step_id: draft.season_step_id }),
  };
}

/** The step that a job did, in the same op as its entry. */
export function stepDone({ id, season_step_id }: SpreadDraft): Mutation[] {
  if (!season_step_id) return [];
  return [{ t: "step", id: season_step_id, set: { state: { state: "done", entry_id: id } } }];
}
