/** Product poured in on the way: from the bag beside, or more than was loaded. */

import { mass, parse, type System } from "../../../../format";
import type { EngineCall } from "../../../../platform/engine/types";
import type { PassDone, PassOnFoot, Plan, PourForm, SpreadDraft } from "../types";
import { amount, type UsedValue } from "./left";

export interface PourTrouble {
  ok: false;
  field: "in_bag" | "added";
  message: string;
}
export type Poured = { ok: true; in_bag_kg: number | null; added_kg: number };

const no = (field: PourTrouble["field"], message: string): PourTrouble => ({ ok: false, field, message });

/** A kitchen or bathroom scale cannot be read finer than this share. */
const SCALE_SLACK = 0.02;

/** All that was loaded for this job so far, kg. */
export function loadedSoFar(plan: Plan, passes: readonly PassDone[], pass: PassOnFoot): number {
  return passes.reduce((sum, { added_kg }) => sum + added_kg, plan.load_kg + pass.added_kg);
}

/** By the balance: what there was, and what was put to it. */
export async function together(call: EngineCall, start_kg: number, added_kg: number): Promise<number | null> {
  const answer = await call<UsedValue>("spreading.used", {
    start_kg,
    added_kg,
    left_kg: 0,
    measured: "scale",
  });
  return answer.value?.used_kg ?? null;
}

/** What of the aim is not loaded yet, kg. */
async function mayAdd(call: EngineCall, plan: Plan, loaded_kg: number): Promise<number> {
  const left_kg = Math.min(loaded_kg, plan.mass_kg);
  const ask = { start_kg: plan.mass_kg, left_kg, measured: "scale" };
  return (await call<UsedValue>("spreading.used", ask)).value?.used_kg ?? 0;
}

/** Reads what was poured in; more than the aim allows is refused with what is allowed. */
export async function readPour(
  call: EngineCall,
  form: PourForm,
  { plan, pass, loaded_kg }: { plan: Plan; pass: PassOnFoot; loaded_kg: number },
  system: System,
): Promise<Poured | PourTrouble> {
  if (form.from === "bag") return fromBag(form, pass, system);
  const read = parse(form.added.amount, form.added.unit);
  if (!read.ok) return no("added", read.code === "empty" ? "Enter how much you added." : read.message);
  if (read.si <= 0) return no("added", "Enter how much you added: more than 0.");
  const most_kg = await mayAdd(call, plan, loaded_kg);
  if (read.si > most_kg + plan.mass_kg * SCALE_SLACK) return no("added", tooMuch(most_kg, plan, system));
  return { ok: true, in_bag_kg: pass.in_bag_kg, added_kg: read.si };
}

function tooMuch(most_kg: number, { mass_kg }: Plan, system: System): string {
  const aim = mass(mass_kg, system).text;
  if (most_kg < mass_kg * SCALE_SLACK) return `The whole target of ${aim} is loaded. Don’t add any more.`;
  return `That is over the target of ${aim}. Add at most ${mass(most_kg, system).text} more.`;
}

function fromBag({ in_bag }: PourForm, pass: PassOnFoot, system: System): Poured | PourTrouble {
  const read = in_bag.amount.trim() === "" ? { si: 0 } : amount(in_bag, "");
  if ("message" in read) return no("in_bag", read.message);
  const most = pass.part.there_kg;
  if (read.si > most) return no("in_bag", `You had ${mass(most, system).text} in all. Enter that or less.`);
  return { ok: true, in_bag_kg: read.si, added_kg: 0 };
}

/** The sums after a pour, worked out by the engine; null where they could not be. */
export interface PourSums {
  added_kg: number;
  there_kg: number;
  base_kg: number;
}

export async function pourSums(
  call: EngineCall,
  pass: PassOnFoot,
  added_kg: number,
): Promise<PourSums | null> {
  const { part, base } = pass;
  const sums = [
    await together(call, pass.added_kg, added_kg),
    await together(call, part.there_kg, added_kg),
    await together(call, base.kg, added_kg),
  ];
  const [added, there, there_now] = sums as [number | null, number | null, number | null];
  if (added === null || there === null || there_now === null) return null;
  return { added_kg: added, there_kg: there, base_kg: there_now };
}

/** The draft once it is poured in. What was expected of the end no longer holds where product came on top. */
export function poured(
  draft: SpreadDraft,
  { in_bag_kg, added_kg }: Poured,
  sums: PourSums | null,
): SpreadDraft {
  const { pass, pour } = draft;
  if (!pass) return draft;
  const clear = { ...pour, in_bag: { ...pour.in_bag, amount: "" }, added: { ...pour.added, amount: "" } };
  if (!sums || added_kg === 0) return { ...draft, pour: clear, pass: { ...pass, in_bag_kg } };
  const more = {
    added_kg: sums.added_kg,
    part: { ...pass.part, there_kg: sums.there_kg },
    base: { ...pass.base, kg: sums.base_kg },
    expect: null,
    chance_of_running_out: null,
  };
  return { ...draft, pour: clear, pass: { ...pass, in_bag_kg, ...more } };
}
