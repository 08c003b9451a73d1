/** For tests: what a fake was asked, asked once more of the engine itself. Where the fake knows better, it has gone stale. */
import { BY_ID } from "./recorded.gen";
import type { Answer, CallName } from "./types";

export interface Given {
  name: CallName;
  args: unknown;
  value: unknown;
}

type Real = (name: CallName, args: never) => Answer<unknown>;

/** Refusals that are not about how much: the engine takes no such call or argument, or needs one more. */
const STALE = new Set(["unknown_call", "unknown_argument", "missing_argument", "wrong_type", "not_a_choice"]);

/** In a sentence each: what was asked that the engine does not take, and answered that it does not answer. */
export function staleIn(given: readonly Given[], real: Real): string[] {
  const once = new Map(given.map((one) => [JSON.stringify([one.name, one.args, kindOf(one.value)]), one]));
  return [...once.values()].flatMap(({ name, args, value }) => {
    const { error, value: own } = real(name, args as never);
    if (error) return STALE.has(error.code) ? [`${name}: ${error.message}`] : [];
    return differences(name, "", value, own).map((what) => `${name}: ${what}`);
  });
}

type Group = Record<string, unknown>;
const isGroup = (value: unknown): value is Group =>
  typeof value === "object" && value !== null && !Array.isArray(value);
const kindOf = (value: unknown): string =>
  Array.isArray(value) ? "list" : value === null ? "null" : typeof value;

/** Where two answers are not of one shape. What is null in one of them says nothing of the other. */
function differences(name: CallName, at: string, fake: unknown, real: unknown): string[] {
  if (fake === null || real === null) return [];
  if (kindOf(fake) !== kindOf(real)) return [`${at} is ${kindOf(fake)} in place of ${kindOf(real)}`];
  if (Array.isArray(fake)) return rows(name, at, fake, real as unknown[]);
  if (!isGroup(fake) || !isGroup(real)) return [];
  if (BY_ID[name]?.includes(at)) return rows(name, at, Object.values(fake), Object.values(real));
  return fields(name, at, fake, real);
}

function fields(name: CallName, at: string, fake: Group, real: Group): string[] {
  const names = [...new Set([...Object.keys(fake), ...Object.keys(real)])];
  return names.flatMap((field) => {
    const inside = at ? `${at}.${field}` : field;
    if (!(field in fake)) return [`${inside} is missing`];
    return field in real
      ? differences(name, inside, fake[field], real[field])
      : [`${inside} is not answered`];
  });
}

/** Every row of the fake beside the first of the engine's, where it has any. */
function rows(name: CallName, at: string, fake: unknown[], real: unknown[]): string[] {
  const [first] = real;
  const beside = (row: unknown) =>
    isGroup(row) && isGroup(first) ? fields(name, at, row, first) : differences(name, at, row, first);
  return first === undefined ? [] : [...new Set(fake.flatMap(beside))];
}
