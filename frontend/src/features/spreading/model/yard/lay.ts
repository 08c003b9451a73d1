/** The rows of a pass laid out by the engine, and what a setting should put down on them. */
import type { EngineCall, Value } from "../../../../platform/engine/types";
import { given } from "../../../../records/entries";
import type { PastPass } from "../../../../records/pass-history";
import { productArgs } from "../../../../records/products";
import type { Outline, OutRow, PassOnFoot, Plan, TourRow, ZoneGround, ZoneOut } from "../types";
import { type Laying, tourArgs, withoutOutlines } from "./rows";

async function holesOf(
  call: EngineCall,
  { points_m, holes_m, circles_m }: Outline,
): Promise<[number, number][][]> {
  if (!circles_m?.length) return holes_m ?? [];
  const ask = { points_m, circles_m, ...(holes_m?.length ? { holes_m } : {}) };
  const answer = await call("area.outline", ask);
  return answer.value?.holes_m ?? holes_m ?? [];
}

/** Round obstacles as the engine's own polygons, by zone. */
export async function allHoles(call: EngineCall, { zones }: Pick<Plan, "zones">): Promise<Laying["holes"]> {
  const found: Laying["holes"] = {};
  for (const { id, outline } of zones) if (outline) found[id] = await holesOf(call, outline);
  return found;
}

/**
 * The rows of a pass, in walking order. Where an outline cannot be laid out, each zone is one row; where nothing can
 * be, there are none, and the pass is walked without counting.
 */
export async function layOut(
  call: EngineCall,
  plan: Plan,
  pass: Pick<PassOnFoot, "pattern" | "base" | "rate_kg_m2">,
  strips: Record<string, number>,
  out: readonly OutRow[] = [],
): Promise<LaidOut> {
  const { pattern, base, rate_kg_m2 } = pass;
  const laying = { pattern, base, rate_kg_m2, strips, holes: await allHoles(call, plan), out };
  for (const one of [plan, withoutOutlines(plan)]) {
    const ask = tourArgs(one, laying);
    const answer = ask && (await call("swath.tour", ask));
    if (answer?.value)
      return { rows: answer.value.rows, out: leftOut(answer.value), clear: clearOf(answer.value) };
  }
  return { rows: [], out: [], clear: [] };
}

export interface LaidOut {
  rows: TourRow[];
  out: ZoneOut[];
  clear: ZoneGround[];
}

/** What a pass keeps of how it was laid out, besides its rows. */
export const laidOn = ({ out, clear }: Pick<LaidOut, "out" | "clear">) => ({
  ...(out.length ? { out } : {}),
  ...(clear.length ? { clear } : {}),
});

/** The ground strips lie on, of the zones that stay clear of water. */
export function clearOf({ zones }: Value<"swath.tour">): ZoneGround[] {
  return zones.flatMap(({ zone_id, ground_m }) => (ground_m ? [{ zone_id, ground_m }] : []));
}

function leftOut({ zones }: Value<"swath.tour">): ZoneOut[] {
  return zones.flatMap(({ zone_id, out_m2 }) => (out_m2 ? [{ zone_id, area_m2: out_m2 }] : []));
}

/** What a setting nobody asked the engine for should put down, kg per m2; null where the curve has no such click. */
export async function rateAt(
  call: EngineCall,
  plan: Plan,
  dial: number,
  history: readonly PastPass[],
): Promise<number | null> {
  const { swath_m, speed_m_s, product } = plan;
  const facts = given({ swath_m, speed_m_s });
  const ask = { dial: plan.dial, product: productArgs(product), history, ...facts };
  const answer = await call("spreading.curve", ask);
  const near = answer.value?.points.find((point) => Math.abs(point.dial - dial) < plan.dial.step / 10);
  return near?.rate_kg_m2.mid ?? null;
}
