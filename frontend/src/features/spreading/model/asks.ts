/** What a job asks of the engine: arguments from a draft, all SI; null where something is still missing. */
import { readNumber } from "../../../format";
import { parse } from "../../../forms/amount";
import type { Args, Value } from "../../../platform/engine/types";
import { given } from "../../../records/entries";
import { ownFields } from "../../../records/kinds";
import type { PastPass } from "../../../records/pass-history";
import { type Hopper, type Product, productArgs, type Spreader } from "../../../records/products";
import type { StandingValue } from "./sums";
import type { PassDone, PassOnFoot, Plan, SpreadDraft, SpreadZone } from "./types";
import { outOf, scorchedOf } from "./yard/scorched";

export type AimValue = Value<"label.aim">;
export type StartValue = Value<"spreading.start">;
export type NextValue = Value<"spreading.next">;
/** To walk at the dial given, or not: the first click is too much, nothing comes fully open, too little to meter. */
export type Advice = StartValue["advice"];
/** A past pass that is not learned from: its place in the history, and why. */
export type LeftOut = StartValue["left_out"][number];
/** What one zone got, over all of it; `n_most_kg_m2` is the most nitrogen any of its ground got. */
export type ZoneShare = Value<"spreading.split">["zones"][number];

/** What has been chosen, with the facts of the choice; parts are missing until chosen. */
export interface Choice {
  /** In walking order. */
  zones: SpreadZone[];
  area_m2: number;
  product?: Product;
  spreader?: Spreader;
}

/** What stands in the way of the aim as typed, if anything: a message for its field. */
export function aimTrouble(draft: SpreadDraft, product: Product | undefined): string | undefined {
  const { kind, nitrogen, bags } = draft.aim;
  if (!product) return undefined;
  if (kind === "label" && !product.coverage_m2)
    return "Add the bag’s coverage to the product in the shed, or set the rate by nitrogen or by the bag.";
  if (kind === "nitrogen") return nitrogenTrouble(nitrogen, product);
  if (kind !== "bag") return undefined;
  const read = readNumber(bags);
  if (!read.ok) return read.message;
  return read.value > 0 ? undefined : "Enter how many bags: more than 0, such as 1 or 1/2.";
}

function nitrogenTrouble(typed: { amount: string; unit: string }, product: Product): string | undefined {
  if (!product.n_percent) return "This label shows no nitrogen. Use the label rate or go by the bag.";
  const read = parse(typed.amount, typed.unit);
  if (!read.ok) return read.message;
  return read.si > 0 ? undefined : "Enter how much nitrogen: more than 0.";
}

function aimOf({ aim }: SpreadDraft): Args<"label.aim">["aim"] | null {
  if (aim.kind === "label") return { kind: "label" };
  if (aim.kind === "nitrogen") {
    const read = parse(aim.nitrogen.amount, aim.nitrogen.unit);
    return read.ok ? { kind: "nitrogen", n_kg_m2: read.si } : null;
  }
  const read = readNumber(aim.bags);
  return read.ok ? { kind: "bag", bags: read.value } : null;
}

export function aimArgs(draft: SpreadDraft, { product, area_m2 }: Choice): Args<"label.aim"> | null {
  if (!product || area_m2 <= 0 || aimTrouble(draft, product)) return null;
  const { net_kg, coverage_m2, n_percent, p2o5_percent, sort } = product;
  const aim = aimOf(draft);
  return aim && { aim, area_m2, net_kg, ...given({ coverage_m2, n_percent, p2o5_percent, sort }) };
}

export function startArgs(
  choice: Choice,
  target_kg_m2: number | undefined,
  passes: number | null,
  history: readonly PastPass[],
): Args<"spreading.start"> | null {
  const { product, spreader, area_m2 } = choice;
  if (!product || !spreader || !target_kg_m2 || area_m2 <= 0) return null;
  const { lowest, highest, step } = spreader.dial;
  const dial = { lowest, highest, step };
  const { swath_m, speed_m_s } = spreader;
  const facts = given({ passes, swath_m, speed_m_s });
  return { dial, product: productArgs(product), target_kg_m2, area_m2, ...facts, history };
}

export function nextArgs(
  draft: SpreadDraft | null | undefined,
  passes: readonly PassDone[],
  stands: StandingValue | undefined,
  history: readonly PastPass[],
): Args<"spreading.next"> | null {
  const { plan, left_sd_kg } = draft ?? {};
  const last = passes.at(-1);
  if (!plan || !stands || !last || last.left_kg <= 0) return null;
  return {
    dial: plan.dial,
    product: productArgs(plan.product),
    target_kg_m2: plan.target_kg_m2,
    area_m2: plan.area_m2,
    history,
    left_kg: last.left_kg,
    used_kg: stands.used_kg,
    ...outOf(scorchedOf(passes)),
    passes_to_go: atLeastOne(stands),
    ...given({ left_sd_kg, swath_m: plan.swath_m, speed_m_s: plan.speed_m_s }),
  };
}

/** Once all planned passes are walked, a further one is what is asked about. */
export const atLeastOne = ({ passes_to_go }: StandingValue): number => Math.max(1, passes_to_go);

/** `hopper.level` for a mass that should be left. */
export function expectedArgs(
  plan: Plan | null,
  pass: PassOnFoot | null,
  hopper: Hopper | undefined,
): Args<"hopper.level"> | null {
  const density = plan?.product.bulk_density_kg_m3;
  if (!pass?.expect || !hopper || !density) return null;
  return { ...hopper, bulk_density_kg_m3: density, mass_kg: pass.expect.mid };
}

/** `hopper.mass` for a level; null without all measures or without a density. */
export function hopperArgs(
  hopper: Hopper | undefined,
  bulk_density_kg_m3: number | undefined,
  level_share: number | null,
): Args<"hopper.mass"> | null {
  return hopper && bulk_density_kg_m3 && level_share !== null
    ? { ...hopper, bulk_density_kg_m3, level_share }
    : null;
}

/** What the label said when the job began, as far as it can be true: a draft may be older than its limits. */
export function analysisOf({ n_percent, p2o5_percent, slow_n_share }: Plan): Analysis {
  return ownFields("entry", "spread", { n_percent, p2o5_percent, slow_n_share }).fields;
}

type Analysis = Pick<Plan, "n_percent" | "p2o5_percent" | "slow_n_share">;
