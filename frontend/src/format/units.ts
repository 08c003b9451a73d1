/** The units a person may choose, reading an amount in one of them, and showing it back as typed. */

import table from "../../../fixtures/units.json";
import { type NumberCode, readNumber } from "./number";

export type System = "us" | "metric";
export type Quantity =
  | "mass"
  | "area"
  | "length"
  | "height"
  | "speed"
  | "rate"
  | "nitrogen"
  | "density"
  | "volume"
  | "temperature"
  | "degrees"
  | "degree_days"
  | "soil";

/** One unit: (amount - zero) * factor = the value as stored (SI; heights of cut in mm, temperatures in °C). */
export interface Unit {
  key: string;
  label: string;
  factor: number;
  /** What it shows where the stored value is 0: 32 for °F. */
  zero?: number;
  quantity: Quantity;
  system: System;
  words: string[];
}

/** What of a unit its amounts are worked out by. */
export type Scaled = Pick<Unit, "factor" | "zero">;

/** What a person wrote, kept beside the SI value: the *_typed fields of fixtures/kinds/. */
export interface Typed {
  amount: string;
  unit: string;
}

export type Parsed =
  | { ok: true; si: number; typed: Typed }
  | { ok: false; code: NumberCode | "unit"; message: string };

const UNITS = table.units as Unit[];
const BY_KEY = new Map(UNITS.map((unit) => [unit.key, unit]));

/** The units offered for a quantity: the person's own system first, then the other. */
export function unitsFor(quantity: Quantity, system: System): Unit[] {
  const fits = UNITS.filter((unit) => unit.quantity === quantity);
  return [...fits.filter((unit) => unit.system === system), ...fits.filter((unit) => unit.system !== system)];
}

/** The unit a field starts with. */
export function unitOf(quantity: Quantity, system: System): Unit {
  const [first] = unitsFor(quantity, system);
  if (first === undefined) throw new Error(`fixtures/units.json has no unit for ${quantity}`);
  return first;
}

export function unit(key: string): Unit | undefined {
  return BY_KEY.get(key);
}

/** An amount of a unit as it is stored. */
export function stored(amount: number, { factor, zero = 0 }: Scaled): number {
  return (amount - zero) * factor;
}

/** What is stored, in a unit. */
export function inUnit(si: number, { factor, zero = 0 }: Scaled): number {
  return si / factor + zero;
}

/** A bare number in the unit chosen. What has a unit of its own is read by the engine (forms/amount.ts). */
export function readBare(amountText: string, unitKey: string): Parsed {
  const chosen = BY_KEY.get(unitKey);
  if (chosen === undefined) {
    return { ok: false, code: "unit", message: `There is no unit “${unitKey}”. Choose one from the list.` };
  }
  const read = readNumber(amountText, chosen.system === "metric");
  if (!read.ok) return read;
  return { ok: true, si: stored(read.value, chosen), typed: { amount: amountText.trim(), unit: chosen.key } };
}

/** As typed, never recomputed: 48 lb stays 48 lb. */
export function showTyped(typed: Typed): string {
  const label = BY_KEY.get(typed.unit)?.label;
  const spelledOut = /[a-z'"′″]/i.test(typed.amount);
  return label === undefined || spelledOut ? typed.amount : `${typed.amount} ${label}`;
}

/** The text for an amount box when nothing typed is on record: up to six figures, no grouping. */
export function amountIn(si: number, unitKey: string): string {
  const chosen = BY_KEY.get(unitKey);
  if (chosen === undefined) return String(si);
  return String(Number(inUnit(si, chosen).toPrecision(6)));
}
