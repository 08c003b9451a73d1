/** Amounts of a form read with their units, each refusal in the unit its field is set to. */
import type { System, Typed } from "../../../format";
import { parse } from "../../../forms/amount";
import { checkGroup } from "../../../records/kinds";

export interface Wanted {
  /** The field of the contract. */
  name: string;
  typed: Typed;
}

/**
 * The fields of a group (or of a body, by its kind) as they are stored, and what is wrong with them. A blank one is
 * absent; `needed` ones must not be.
 */
export function readAmounts(
  t: string,
  group: string,
  wanted: readonly Wanted[],
  system: System,
  needed: Readonly<Record<string, string>> = {},
): { values: Record<string, number>; errors: Record<string, string> } {
  const values: Record<string, number> = {};
  const errors: Record<string, string> = {};
  for (const { name, typed } of wanted) {
    if (!typed.amount.trim()) {
      if (needed[name]) errors[name] = needed[name];
      continue;
    }
    const read = parse(typed.amount, typed.unit);
    if (!read.ok) {
      errors[name] = read.message;
      continue;
    }
    const wrong = checkGroup(t, group, { [name]: read.si }, system, { [name]: typed.unit })[name];
    if (wrong) errors[name] = wrong;
    else values[name] = read.si;
  }
  return { values, errors };
}
