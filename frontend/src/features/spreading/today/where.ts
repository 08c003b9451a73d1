import { dateTime } from "../../../format";
import { units } from "../../../platform/session/session";
import { writeDial } from "../../../records/products";
import type { PassOnFoot, SpreadDraft } from "../model/types";

/** What the card needs of a draft; drafts of earlier builds counted no strips and were never stopped. */
export type Where = Pick<SpreadDraft, "step" | "plan"> & {
  stopped_at?: string | null;
  pass: (Pick<PassOnFoot, "number" | "dial"> & { done?: number; rows?: readonly unknown[] }) | null;
};

/** Where a job stands: pass, dial, strips done; and since when it waits. */
export function sayWhere({ step, plan, pass, stopped_at }: Where): string {
  if (plan && !pass && step === "next") return "Between two passes.";
  if (!plan || !pass) return "Nothing is down yet.";
  const which = `Pass ${pass.number} of ${Math.max(plan.passes, pass.number)}`;
  const since = stopped_at ? ` Stopped on ${dateTime(stopped_at, units.value)}.` : "";
  if (step === "next" || step === "finish") return `${which} is saved.${since}`;
  return `${which} at dial ${writeDial(pass.dial, plan.dial.step)}${sayRows(pass)}.${since}`;
}

function sayRows({ done = 0, rows = [] }: { done?: number; rows?: readonly unknown[] }): string {
  return rows.length ? `, ${done} of ${rows.length} strips done` : "";
}
