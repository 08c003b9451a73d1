/** What speaks against a job before it is begun, and what the person answered; the finding is the engine's. */
import type { Args, Value } from "../../../../platform/engine/types";
import { type Ceilings, type CeilingsValue, ceilingsArgs } from "../../../../records/ceilings";
import { type Entry, given } from "../../../../records/entries";
import { clashEntry, mayClash } from "../../../../records/log/clash-entries";
import type { Product } from "../../../../records/products";
import type { AimValue, Choice } from "../asks";
import type { Answered } from "../types";

export type BeforeValue = Value<"record.before">;
export type BeforeWarning = BeforeValue["warnings"][number];
/** One zone of a warning. */
export type BeforeZone = BeforeWarning["zones"][number];

export interface Asking {
  choice: Choice;
  aim: AimValue | undefined;
  entries: readonly Entry[];
  products: readonly Product[];
  limits: CeilingsValue | undefined;
  now: string;
  me: string | undefined;
}

/** `limits.ceilings` for the chosen zones. */
export function choiceCeilings({ zones }: Choice): Args<"limits.ceilings"> | null {
  return zones.length ? ceilingsArgs(zones) : null;
}

/** Only ceilings that are known. */
function known({ zone_id, ...most }: Ceilings): NonNullable<Args<"record.before">["ceilings"]>[number] {
  return { zone_id, ...given(most) };
}

/** `record.before`; null while zones, product or amount are not chosen, or the ceilings are not there. */
export function beforeArgs(asking: Asking): Args<"record.before"> | null {
  const { choice, aim, entries, products, limits, now, me } = asking;
  const { product, zones } = choice;
  if (!product || !zones.length || !aim || !limits) return null;
  const dose = given({ n_kg_m2: aim.n_kg_m2, p2o5_kg_m2: aim.p2o5_kg_m2 });
  const { id: product_id, sort, slow_n_share } = product;
  const job = {
    product_id,
    sort,
    at: now,
    ...given({ by: me, slow_n_share }),
    rate_kg_m2: aim.target_kg_m2,
    zones: zones.map(({ id }) => ({ zone_id: id, ...dose })),
  };
  return {
    job,
    entries: mayClash(entries, now.slice(0, 10)).map((entry) => clashEntry(entry, me)),
    products: products.map(({ id, interval_days }) => ({ id, ...given({ interval_days }) })),
    ceilings: limits.zones.map(known),
    ...given({ lime_once_kg_m2: limits.lime_once_kg_m2 }),
  };
}

export type Answers = Readonly<Record<string, string>>;

/** Warnings nobody has answered yet. */
export function unanswered<W extends { key: string }>(warnings: readonly W[], answers: Answers = {}): W[] {
  return warnings.filter(({ key }) => !answers[key]);
}

/** What the entry keeps of the warnings that were answered before it. */
export function answeredOf(
  warnings: readonly BeforeWarning[],
  answers: Answers = {},
  at: string,
): Answered[] {
  return warnings.flatMap(({ key, kind, zones, right_from }) => {
    const answer = answers[key];
    return answer
      ? [{ key, kind, zone_ids: zones.map(({ zone_id }) => zone_id), right_from, answer, at }]
      : [];
  });
}
