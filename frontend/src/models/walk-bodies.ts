/** The log entries a walk writes, exactly as fixtures/kinds.json asks. */
import { given } from "./entries";
import type { Spreader } from "./shed-facts";
import type { SplitValue } from "./walk-asks";
import { lastDial, usedSoFar } from "./walk-steps";
import type { PassDone, PassOnFoot, Plan, Reading, WalkDraft } from "./walk-types";

interface Signed {
  occurred_at: string;
  by: string | undefined;
}

/** A pass: the learning history. Flags are written only where they are true. */
export function passBody(
  draft: WalkDraft,
  plan: Plan,
  pass: PassOnFoot,
  reading: Reading,
  spreader: Spreader | undefined,
  signed: Signed,
): object {
  const { left_sd_kg: _, ran_out, nothing_came, ...read } = reading;
  const { swath_m, speed_m_s } = spreader ?? {};
  return {
    kind: "pass",
    ...given({ ...signed }),
    zone_ids: plan.zones.map((zone) => zone.id),
    walk_id: draft.id,
    product_id: plan.product.id,
    spreader_id: draft.spreader_id,
    number: pass.number,
    passes: plan.passes,
    dial: pass.dial,
    dial_scale: plan.dial,
    start_kg: pass.start_kg,
    ...given({ granules: plan.product.granules, bulk_density_kg_m3: plan.product.bulk_density_kg_m3 }),
    ...read,
    ...(ran_out ? { ran_out } : {}),
    ...(nothing_came ? { nothing_came } : {}),
    ...given({ swath_m, speed_m_s }),
  };
}

/** The walk: what the ledger and the stock count. */
export function walkBody(
  draft: WalkDraft,
  plan: Plan,
  passes: readonly PassDone[],
  split: SplitValue,
  signed: Signed,
): object {
  const zones = split.zones.map(({ zone_id, id, area_m2, used_kg, n_kg_m2 }) => ({
    zone_id: zone_id ?? id,
    area_m2,
    used_kg,
    n_kg_m2,
  }));
  return {
    kind: "walk",
    ...given({ ...signed }),
    zone_ids: plan.zones.map((zone) => zone.id),
    product_id: plan.product.id,
    spreader_id: draft.spreader_id,
    aim: draft.aim,
    area_m2: plan.area_m2,
    target_kg_m2: plan.target_kg_m2,
    used_kg: usedSoFar(passes),
    ...given({
      sort: plan.product.sort,
      n_percent: plan.n_percent,
      slow_n_share: plan.slow_n_share,
      last_dial: lastDial(passes),
    }),
    zones,
    passes: passes.length,
  };
}
