/** A field of the contract in a form: how it is asked for, what it starts with, how it is written back. */
import { amountIn, readNumber, type System, type Typed, unitOf } from "../format";
import { localOfMoment, momentMoved, NO_WHEN } from "../format/moment";
import { isShare, type Limits, quantityOf, typedName } from "../records/kinds";
import { parse } from "./amount";

/** What stands in an input: text, a tick, an amount with its unit, or the ids chosen. */
export type Filled = string | boolean | Typed | readonly string[];

/** "drop": it cannot be written by hand, only left out. */
export type Way =
  | "amount"
  | "number"
  | "text"
  | "choice"
  | "flag"
  | "date"
  | "moment"
  | "thing"
  | "things"
  | "drop";

export interface FormField {
  name: string;
  limits: Limits;
  way: Way;
  /** The field that keeps it as typed, where there is one. */
  typed: string | undefined;
}

type Value = Record<string, unknown>;

export function wayOf(limits: Limits): Way {
  const { type } = limits;
  if (type === "number" || type === "integer") return quantityOf(limits) ? "amount" : "number";
  if (type === "id") return "thing";
  if (type === "ids") return "things";
  return type === "json" ? "drop" : type;
}

/** A field of a group, with the one beside it that keeps it as typed. */
export function fieldIn(fields: Record<string, Limits>, name: string, limits: Limits): FormField {
  const typed = typedName(name) in fields ? typedName(name) : undefined;
  return { name, limits, way: wayOf(limits), typed };
}

/** A share is stored from 0 to 1 and written in percent. */
const PERCENT = 100;

/** What its input shows for a value that stands, blank where none does. */
export function startOf(value: Value, { name, limits, way }: FormField, system: System): Filled {
  const is = value[name];
  const quantity = quantityOf(limits);
  if (way === "flag") return is === true;
  if (way === "drop") return false;
  if (way === "things") return Array.isArray(is) ? (is as string[]) : [];
  if (quantity) {
    const typed = value[typedName(name)] as Partial<Typed> | undefined;
    if (typeof typed?.amount === "string" && typeof typed.unit === "string") return typed as Typed;
    const { key } = unitOf(quantity, system);
    return { amount: typeof is === "number" ? amountIn(is, key) : "", unit: key };
  }
  if (is === undefined || is === null) return "";
  if (isShare(limits) && typeof is === "number") return String(Number((is * PERCENT).toPrecision(6)));
  return way === "moment" ? localOfMoment(String(is)) : String(is);
}

/** Writes what was typed into a value, in place; what is wrong with it, if anything. `comma`: a decimal comma is usual. */
export function writeField(value: Value, field: FormField, now: Filled, comma = false): string | undefined {
  const { name, way } = field;
  if (way === "flag") value[name] = now === true;
  else if (way === "drop") {
    if (now === true) delete value[name];
  } else if (way === "things") value[name] = [...(now as readonly string[])];
  else if (way === "amount") return writeAmount(value, field, now as Typed);
  else if (String(now).trim() === "") {
    delete value[name];
    if (way === "moment") return NO_WHEN;
  } else if (way === "number") return writeNumber(value, field, String(now), comma);
  else if (way === "moment") return writeMoment(value, field, String(now));
  else value[name] = String(now).trim();
  return undefined;
}

function writeMoment(value: Value, { name }: FormField, text: string): string | undefined {
  const moment = momentMoved(text, String(value[name] ?? ""));
  if (moment === undefined) return NO_WHEN;
  value[name] = moment;
  return undefined;
}

/** The field and what keeps it as typed, out of a value. */
export function leaveOut(value: Value, { name, typed }: FormField): void {
  delete value[name];
  if (typed) delete value[typed];
}

function writeAmount(value: Value, field: FormField, now: Typed): string | undefined {
  const { name, typed } = field;
  if (now.amount.trim() === "") {
    leaveOut(value, field);
    return undefined;
  }
  const read = parse(now.amount, now.unit);
  if (!read.ok) return read.message;
  value[name] = read.si;
  if (typed) value[typed] = read.typed;
  return undefined;
}

function writeNumber(
  value: Value,
  { name, limits }: FormField,
  text: string,
  comma: boolean,
): string | undefined {
  const sign = isShare(limits) ? "%" : limits.unit === "deg" ? "°" : "";
  const read = readNumber(text.replace(sign, ""), comma);
  if (!read.ok) return read.message;
  value[name] = isShare(limits) ? read.value / PERCENT : read.value;
  return undefined;
}
