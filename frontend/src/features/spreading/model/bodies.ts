/** The log entries a job writes, exactly as fixtures/kinds/ asks. */
import { given } from "../../../records/entries";
import type { PassPart } from "../../../records/pass-history";
import { analysisOf, type SplitValue } from "./asks";
import { lastDial } from "./steps";
import type { PassDone, PassOnFoot, Plan, Reading, SpreadDraft } from "./types";
import { LEAST_PART_M2 } from "./yard/check";

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

/**
 * The stretches of a pass, the last one closed by its end; none where one setting served throughout. Where nothing was
 * walked after the last change, what little the reading differs belongs to the stretch before.
 */
export function partsOf(pass: PassOnFoot, reading: Reading, used_kg: number): PassPart[] {
  const { parts, part, dial } = pass;
  const before = parts.at(-1);
  if (!before) return [];
  const { measured, left_kg } = reading;
  const area_m2 = Math.max(0, reading.area_m2 - part.area_m2);
  if (area_m2 >= LEAST_PART_M2) return [...parts, { dial, area_m2, used_kg, measured, left_kg }];
  const whole = { area_m2: before.area_m2 + area_m2, used_kg: before.used_kg + used_kg, left_kg };
  return [...parts.slice(0, -1), { ...before, ...whole }];
}

/** The zones that got something; where nothing came at all, those that were walked for it. */
function reached(plan: Plan, { zones }: SplitValue): string[] {
  const got = zones.filter(({ used_kg }) => used_kg > 0).map(({ zone_id }) => zone_id);
  return got.length ? got : plan.zones.map(({ id }) => id);
}

/** The job: what the ledger and the stock count. */
export function spreadBody(
  draft: SpreadDraft,
  plan: Plan,
  passes: readonly PassDone[],
  split: SplitValue,
  signed: Signed,
): object {
  return {
    kind: "spread",
    ...given({ ...signed }),
    zone_ids: reached(plan, split),
    product_id: plan.product.id,
    spreader_id: draft.spreader_id,
    aim: draft.aim,
    area_m2: plan.area_m2,
    target_kg_m2: plan.target_kg_m2,
    used_kg: split.used_kg,
    ...given({
      sort: plan.product.sort,
      ...analysisOf(plan),
      last_dial: lastDial(passes),
    }),
    zones: split.zones,
    pattern: draft.crossing,
    passes: passes.length,
    ...filled({ answered: plan.answered ?? [] }),
  };
}
