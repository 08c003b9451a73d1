/** Product poured in on the way: from the bag beside, or more than was loaded. Every sum of it is the engine's. */

import { mass, type System } from "../../../../format";
import { parse } from "../../../../forms/amount";
import { sayRefusal } from "../../../../forms/refusal";
import type { Answer, EngineCall } from "../../../../platform/engine/types";
import { type PourValue, pourArgs } from "../sums";
import type { PassDone, PassOnFoot, Plan, PourForm, SpreadDraft } from "../types";
import { amount } from "./left";

export interface PourTrouble {
  ok: false;
  field: "in_bag" | "added";
  message: string;
}
/** What was poured in, and what there is with it; no sums where it came from the load. */
export type Poured = { ok: true; in_bag_kg: number | null; sums: PourValue | null };

const no = (field: PourTrouble["field"], message: string): PourTrouble => ({ ok: false, field, message });

export interface PourContext {
  plan: Plan;
  pass: PassOnFoot;
  passes: readonly PassDone[];
  system: System;
}

/** Reads what was poured in; more than the aim allows is refused with what is allowed. */
export async function readPour(
  call: EngineCall,
  form: PourForm,
  context: PourContext,
): Promise<Poured | PourTrouble> {
  if (form.from === "bag") return fromBag(call, form, context);
  const read = parse(form.added.amount, form.added.unit);
  if (!read.ok) return no("added", read.code === "empty" ? "Enter how much you added." : read.message);
  if (read.si <= 0) return no("added", "Enter how much you added: more than 0.");
  const { plan, pass, passes } = context;
  const answer = await call("spread.pour", pourArgs(plan, passes, pass, { added_kg: read.si }));
  if (!answer.value) return no("added", tooMuch(answer, context));
  return { ok: true, in_bag_kg: pass.in_bag_kg, sums: answer.value };
}

function tooMuch({ error }: Answer<unknown>, { plan, system }: PourContext): string {
  if (error?.name !== "added_kg" || typeof error.high !== "number") return sayRefusal(error, system);
  const aim = mass(plan.mass_kg, system).text;
  if (error.high === 0) return `The whole target of ${aim} is loaded. Don’t add any more.`;
  return `That is over the target of ${aim}. Add at most ${mass(error.high, system).text} more.`;
}

async function fromBag(
  call: EngineCall,
  { in_bag }: PourForm,
  { plan, pass, passes, system }: PourContext,
): Promise<Poured | PourTrouble> {
  const read = in_bag.amount.trim() === "" ? { si: 0 } : amount(in_bag, "");
  if ("message" in read) return no("in_bag", read.message);
  const { error } = await call("spread.pour", pourArgs(plan, passes, pass, { in_bag_kg: read.si }));
  if (error?.name === "in_bag_kg" && typeof error.high === "number")
    return no("in_bag", `You had ${mass(error.high, system).text} in all. Enter that or less.`);
  return error ? no("in_bag", sayRefusal(error, system)) : { ok: true, in_bag_kg: read.si, sums: null };
}

/** The draft once it is poured in. What was expected of the end no longer holds where product came on top. */
export function poured(draft: SpreadDraft, { in_bag_kg, sums }: Poured): SpreadDraft {
  const { pass, pour } = draft;
  if (!pass) return draft;
  const clear = { ...pour, in_bag: { ...pour.in_bag, amount: "" }, added: { ...pour.added, amount: "" } };
  if (!sums) return { ...draft, pour: clear, pass: { ...pass, in_bag_kg } };
  const more = {
    added_kg: sums.added_kg,
    part: { ...pass.part, there_kg: sums.there_kg },
    base: { ...pass.base, kg: sums.base_kg },
    expect: null,
    chance_of_running_out: null,
  };
  return { ...draft, pour: clear, pass: { ...pass, in_bag_kg, ...more } };
}
