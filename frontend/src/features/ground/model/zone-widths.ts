/** Where the widths of a zone were taken, in the form's words and the engine's; older zones never said. */

import { readNumber } from "../../../format";
import type { Args } from "../../../platform/engine/types";
import type { AreaCall } from "./zone-outline";

/** `sum` is the older form's, which asked nobody: every width counted whole, whatever the ends were. */
export type WidthRule = "ends" | "middle" | "simpson" | "sum";

export const WIDTH_METHODS: Record<WidthRule, NonNullable<Args<"area.offsets">["method"]>> = {
  ends: "trapezoid",
  middle: "sum",
  simpson: "simpson",
  sum: "sum",
};

/** The form's word for an engine call written elsewhere; a sum, or nothing said, stays the open question it is. */
export function ruleOf(method: unknown): WidthRule {
  return method === "trapezoid" ? "ends" : method === "simpson" ? "simpson" : "sum";
}

/** Whether counting whole end widths matters and nobody has said where they were taken. */
function readsHigh(rule: WidthRule, first: number, last: number): boolean {
  return rule === "sum" && (first > 0 || last > 0);
}

const firstAndLast = <T>(row: readonly T[]): [T | undefined, T | undefined] => [row[0], row.at(-1)];

/** The same of the widths on a form, as typed. */
export function formReadsHigh(rule: WidthRule, amounts: readonly string[]): boolean {
  const [first, last] = firstAndLast(amounts).map((text) => {
    const read = readNumber(text ?? "");
    return read.ok ? read.value : 0;
  });
  return readsHigh(rule, first ?? 0, last ?? 0);
}

/** The same of a zone on record: its area stands as it was worked out until its keeper answers. */
export function recordReadsHigh(ground: Record<string, any> | undefined): boolean {
  const { args, typed } = ground?.["measured"] ?? {};
  if (ground?.["method"] !== "offsets" || !Array.isArray(args?.offsets_m)) return false;
  const [first, last] = firstAndLast<number>(args.offsets_m);
  return readsHigh(typed?.rule ?? ruleOf(args.method), Number(first ?? 0), Number(last ?? 0));
}

/** The call that measured a zone, as it was made: without a method, earlier builds added every width whole. */
export function callOnRecord(ground: Record<string, any> | undefined): AreaCall | null {
  const { call, args } = ground?.["measured"] ?? {};
  if (!call) return null;
  return call === "area.offsets" ? { name: call, args: { method: "sum", ...args } } : { name: call, args };
}
