/**
 * Entries the server set aside, or would not even read: what can be mended in them, field by field, by the limits of
 * the contract, and the entry as mended. What is not touched is sent again exactly as it was.
 */
import { amountIn, readNumber, type System, type Typed, unitOf } from "../../../format";
import { localOfMoment, momentMoved } from "../../../format/moment";
import { parse } from "../../../forms/amount";
import type { Mutation, ParkedRow, SentMutation } from "../../../platform/store/types";
import { checkGroup, fieldsOf, isShare, type Limits, quantityOf, typedName } from "../../../records/kinds";

/** What stands in an input: text, a tick, or an amount with its unit. */
export type Filled = string | boolean | Typed;

export interface MendField {
  key: string;
  /** Which item of the entry, and which group of it ("" for the body of a log entry). */
  at: number;
  group: string;
  name: string;
  limits: Limits;
  /** "drop": it cannot be written by hand, only left out. */
  way: "amount" | "number" | "text" | "choice" | "flag" | "date" | "moment" | "drop";
  start: Filled;
  /** The field that keeps it as typed, where there is one. */
  typed: string | undefined;
  /** What was wrong with it, from the beginning. */
  error: string | undefined;
}

export type Mended = { mutations: Mutation[] } | { wrong: Record<string, string> };

type Value = Record<string, unknown>;

/** A held entry waits for the keeper; nothing on this phone can mend that. */
export const isPending = (row: ParkedRow): boolean => row.why.code === "pending_review";

/** A log entry whose id stands for something else already can go in under an id of its own. */
export const needsNewId = (row: ParkedRow): boolean => ["body_differs", "op_reused"].includes(row.why.code);

interface Part {
  at: number;
  t: string;
  group: string;
  /** What the contract calls it: the group, or for a body the kind of entry. */
  named: string;
  value: Value;
  fields: Record<string, Limits>;
}

function partsOf(m: readonly SentMutation[]): Part[] {
  return m.flatMap((one, at) => {
    const body = one.body as Value | undefined;
    const kind = String(body?.["kind"] ?? "");
    const parts = Object.entries(one.set ?? {}).map(([group, value]) => ({ group, named: group, value }));
    return [...(body ? [{ group: "", named: kind, value: body }] : []), ...parts].map((part) => ({
      at,
      t: one.t,
      ...part,
      value: part.value as Value,
      fields: known(one.t, part.named),
    }));
  });
}

/** Nothing for a kind or group that this build does not know. */
function known(t: string, group: string): Record<string, Limits> {
  try {
    return fieldsOf(t, group);
  } catch {
    return {};
  }
}

const FIXED = new Set(["kind", "by"]);

/** The fields a person can mend: those filled in, those that are wrong, those that are missing. */
export function mendFields(row: ParkedRow, system: System): MendField[] {
  return partsOf(row.m).flatMap((part) => {
    const wrong = wrongIn(part, row, system);
    return Object.entries(part.fields).flatMap(([name, limits]) => {
      const asked = name in part.value || name in wrong || limits.required;
      if (!asked || FIXED.has(name) || limits.server_only) return [];
      const way = wayOf(limits);
      if (way === "drop" && (!(name in wrong) || limits.required)) return [];
      const key = `${part.at}/${part.group}/${name}`;
      const start = startOf(part.value, name, limits, system);
      const typed = typedName(name) in part.fields ? typedName(name) : undefined;
      return [{ key, at: part.at, group: part.group, name, limits, way, start, typed, error: wrong[name] }];
    });
  });
}

/** The phone's own words, in the person's units, where it sees the fault itself; else the server's. */
function wrongIn(part: Part, row: ParkedRow, system: System): Record<string, string> {
  const here = Object.keys(part.fields).length ? checkGroup(part.t, part.named, part.value, system) : {};
  const told = Object.entries(row.why.fields ?? {}).filter(([name]) => name in part.fields);
  return { ...Object.fromEntries(told), ...here };
}

function wayOf(limits: Limits): MendField["way"] {
  if (limits.type === "number" || limits.type === "integer") return quantityOf(limits) ? "amount" : "number";
  if (limits.type === "json" || limits.type === "id" || limits.type === "ids") return "drop";
  return limits.type;
}

/** A share is stored from 0 to 1 and written in percent. */
const PERCENT = 100;

function startOf(value: Value, name: string, limits: Limits, system: System): Filled {
  const is = value[name];
  const quantity = quantityOf(limits);
  if (limits.type === "flag") return is === true;
  if (wayOf(limits) === "drop") return false;
  if (quantity) {
    const typed = value[typedName(name)] as Partial<Typed> | undefined;
    if (typeof typed?.amount === "string" && typeof typed.unit === "string") return typed as Typed;
    const { key } = unitOf(quantity, system);
    return { amount: typeof is === "number" ? amountIn(is, key) : "", unit: key };
  }
  if (is === undefined || is === null) return "";
  if (isShare(limits) && typeof is === "number") return String(Number((is * PERCENT).toPrecision(6)));
  return limits.type === "moment" ? localOfMoment(String(is)) : String(is);
}

/** The entry as mended, or what is wrong with it by field key. `filled` holds what the person changed. */
export function mend(
  row: ParkedRow,
  filled: Record<string, Filled>,
  system: System,
  newId: () => string,
): Mended {
  const fields = mendFields(row, system);
  const wrong: Record<string, string> = {};
  const parts = partsOf(row.m).map((part) => {
    const mine = fields.filter(({ at, group }) => at === part.at && group === part.group);
    const value = { ...part.value };
    for (const field of mine) {
      const now = filled[field.key];
      if (now === undefined || JSON.stringify(now) === JSON.stringify(field.start)) continue;
      const message = write(value, field, now);
      if (message) wrong[field.key] = message;
    }
    const checked = Object.keys(part.fields).length ? checkGroup(part.t, part.named, value, system) : {};
    for (const [name, message] of Object.entries(checked))
      wrong[`${part.at}/${part.group}/${name}`] ??= message;
    return { ...part, value };
  });
  if (Object.keys(wrong).length) return { wrong };
  return {
    mutations: row.m.map((one, at) =>
      rebuilt(
        one,
        parts.filter((part) => part.at === at),
        row,
        newId,
      ),
    ),
  };
}

/** Writes one field into a value, in place; what is wrong with what was typed, if anything. */
function write(value: Value, field: MendField, now: Filled): string | undefined {
  const { name, way, limits } = field;
  if (way === "flag") value[name] = now === true;
  else if (way === "drop") {
    if (now === true) delete value[name];
  } else if (way === "amount") return writeAmount(value, field, now as Typed);
  else if (String(now).trim() === "") delete value[name];
  else if (way === "number") return writeNumber(value, field, String(now));
  else if (way === "moment") {
    const moment = momentMoved(String(now), String(value[name] ?? ""));
    if (moment === undefined) return `${limits.label} is not a date and time. Choose both.`;
    value[name] = moment;
  } else value[name] = String(now).trim();
  return undefined;
}

function writeAmount(value: Value, { name, typed }: MendField, now: Typed): string | undefined {
  if (now.amount.trim() === "") {
    delete value[name];
    if (typed) delete value[typed];
    return undefined;
  }
  const read = parse(now.amount, now.unit);
  if (!read.ok) return read.message;
  value[name] = read.si;
  if (typed) value[typed] = read.typed;
  return undefined;
}

function writeNumber(value: Value, { name, limits }: MendField, text: string): string | undefined {
  const read = readNumber(isShare(limits) ? text.replace("%", "") : text);
  if (!read.ok) return read.message;
  value[name] = isShare(limits) ? read.value / PERCENT : read.value;
  return undefined;
}

function rebuilt(one: SentMutation, parts: readonly Part[], row: ParkedRow, newId: () => string): Mutation {
  const body = parts.find(({ group }) => group === "");
  const set = Object.fromEntries(
    parts.filter(({ group }) => group).map(({ group, value }) => [group, value]),
  );
  return {
    t: one.t,
    id: needsNewId(row) && one.body ? newId() : one.id,
    ...(body ? { body: body.value } : one.body ? { body: one.body } : {}),
    ...(one.set ? { set } : {}),
  };
}
