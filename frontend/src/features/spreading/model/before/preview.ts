/** How a job would lie before anything is loaded: its strips, its way and its minutes. */
import type { Answer, EngineCall, Value } from "../../../../platform/engine/types";
import type { Choice } from "../asks";
import type { Pattern, Plan } from "../types";
import { allHoles } from "../yard/lay";
import { type Laying, tourArgs, withoutOutlines } from "../yard/rows";

export type TourValue = Value<"swath.tour">;
export type TourZone = TourValue["zones"][number];

/** What a preview rests on; null where the spreader's swath is not in the shed, or no ground is chosen. */
export type Ahead = Pick<Plan, "zones" | "swath_m" | "speed_m_s">;

export function aheadOf({ zones, spreader }: Choice): Ahead | null {
  const { swath_m, speed_m_s } = spreader ?? {};
  if (!zones.length || !swath_m) return null;
  return { zones, swath_m, ...(speed_m_s ? { speed_m_s } : {}) };
}

/** What a pass in the middle of a job rests on besides. */
export type More = Partial<Pick<Laying, "strips" | "out">>;

/** `swath.tour` for one pass; where an outline cannot be laid out, every zone as a whole. */
export async function previewOf(
  call: EngineCall,
  ahead: Ahead,
  pattern: Pattern,
  more: More = {},
): Promise<Answer<TourValue> | undefined> {
  const plan = ahead as Plan;
  const holes = await allHoles(call, ahead);
  const laying: Laying = {
    pattern,
    strips: {},
    holes,
    base: { kg: 0, area_m2: 0 },
    rate_kg_m2: null,
    ...more,
  };
  let answer: Answer<TourValue> | undefined;
  for (const one of [plan, withoutOutlines(plan)]) {
    const ask = tourArgs(one, laying);
    answer = ask ? await call("swath.tour", ask) : undefined;
    if (answer?.value) return answer;
  }
  return answer;
}
