/** Where the product should stand in the hopper by now; and figures put together from several of the engine's answers. */
import { computed } from "@preact/signals";
import { ask, type Followed } from "../../../../platform/engine/ask";
import type { EngineCall } from "../../../../platform/engine/types";
import type { Hopper } from "../../../../records/products";
import type { LeftContext, UsedValue } from "./left";
import { standing } from "./rows";

/** A figure that follows its arguments as `ask` does, worked out in several calls. */
export function answered<V, A extends object = object>(
  args: () => A | null,
  work: (args: A) => Promise<V | undefined>,
): Followed<V> {
  const chain = async (_: string, said: object) => {
    const value = await work(said as A);
    return value === undefined
      ? { error: { code: "unknown", message: "" } }
      : { value: value as any, working: [], engine: "" };
  };
  const answer = ask<V>({ call: chain }, "", args);
  return Object.assign(
    computed(() => answer.value?.value),
    { busy: answer.busy },
  );
}

export interface LevelAsk {
  hopper: Hopper;
  bulk_density_kg_m3: number;
  expected_kg: number;
  in_bag_kg: number;
}

export interface LevelNow {
  level_share: number;
  hopper_kg: number;
}

/** What should be in the hopper now; null where its measures, the density or the strips are not known. */
export function levelAsk({ plan, pass, hopper }: LeftContext): LevelAsk | null {
  const { expected_kg } = standing(plan, pass);
  const { bulk_density_kg_m3 } = plan.product;
  if (!hopper || !bulk_density_kg_m3 || expected_kg === null) return null;
  return { hopper, bulk_density_kg_m3, expected_kg, in_bag_kg: pass.in_bag_kg ?? 0 };
}

/** Nothing where it cannot stand in the hopper: more than it holds, so some must still be in the bag. */
export async function hopperLevelNow(call: EngineCall, said: LevelAsk): Promise<LevelNow | undefined> {
  const { hopper, bulk_density_kg_m3, expected_kg, in_bag_kg } = said;
  const ask = { start_kg: expected_kg, left_kg: in_bag_kg, measured: "scale" };
  const hopper_kg =
    in_bag_kg > 0 ? (await call<UsedValue>("spreading.used", ask)).value?.used_kg : expected_kg;
  if (hopper_kg === undefined) return undefined;
  const answer = await call<{ level_share: number }>("hopper.level", {
    ...hopper,
    bulk_density_kg_m3,
    mass_kg: hopper_kg,
  });
  return answer.value && { level_share: answer.value.level_share, hopper_kg };
}
