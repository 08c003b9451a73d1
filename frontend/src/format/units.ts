/** The units a person may choose, reading an amount in one of them, and showing it back as typed. */

import table from "../../../fixtures/units.json";
import { type NumberCode, readNumber, tidy } from "./number";

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
  | "volume";

/** One unit: amount * factor = the value as stored (SI; heights of cut in mm). */
export interface Unit {
  key: string;
  label: string;
  factor: number;
  quantity: Quantity;
  system: System;
  words: string[];
}

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
const NUMBER = String.raw`[-+]?(?:\d+[ -]\d+\/\d+|\d+\/\d+|[\d.,](?:[\d., ]*[\d.,])?)`;

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

/** Read what stands in an amount box. A unit written behind the number ("48 oz", "12 ft 6 in") wins. */
export function parse(amountText: string, unitKey: string): Parsed {
  const chosen = BY_KEY.get(unitKey);
  if (chosen === undefined) {
    return { ok: false, code: "unit", message: `There is no unit “${unitKey}”. Choose one from the list.` };
  }
  return /[a-z²³'"′″]/i.test(amountText) ? withWords(amountText, chosen) : plain(amountText, chosen);
}

function plain(amountText: string, chosen: Unit): Parsed {
  const read = readNumber(amountText, chosen.system === "metric");
  if (!read.ok) return read;
  return { ok: true, si: read.value * chosen.factor, typed: { amount: amountText.trim(), unit: chosen.key } };
}

function withWords(amountText: string, chosen: Unit): Parsed {
  const wording = plainWords(amountText);
  const pieces = [...wording.matchAll(new RegExp(`(${NUMBER})[ -]?([^\\d ][^\\d]*)`, "g"))];
  const whole = pieces.map((piece) => piece[0]).join("");
  if (pieces.length === 0 || whole.replace(/ /g, "") !== wording.replace(/ /g, "")) {
    return plain(amountText, chosen);
  }
  return addUp(pieces, amountText, chosen);
}

/** Pieces of one quantity, each unit smaller than the one before: 2 lb 4 oz. */
function addUp(pieces: RegExpMatchArray[], amountText: string, chosen: Unit): Parsed {
  let si = 0;
  let last: Unit | undefined;
  for (const [, number = "", word = ""] of pieces) {
    const found = byWord(word.trim(), chosen.quantity);
    if (!found || (last && found.factor >= last.factor)) return wrongUnit(word.trim(), chosen);
    const read = readNumber(number, found.system === "metric");
    if (!read.ok) return read;
    si += read.value * found.factor;
    last = found;
  }
  const first = byWord(pieces[0]?.[2]?.trim() ?? "", chosen.quantity) ?? chosen;
  const amount = pieces.length === 1 ? (pieces[0]?.[1] ?? "") : amountText.trim();
  return { ok: true, si, typed: { amount, unit: first.key } };
}

function plainWords(text: string): string {
  return tidy(text)
    .toLowerCase()
    .replace(
      /(ft|yd|m)\^?([23])(?!\d)/g,
      (_, word: string, power: string) => word + (power === "2" ? "²" : "³"),
    )
    .replace(/([a-z])\./g, "$1 ")
    .replace(/ +/g, " ")
    .trim();
}

function byWord(word: string, quantity: Quantity): Unit | undefined {
  return UNITS.find((one) => one.quantity === quantity && one.words.includes(word));
}

function wrongUnit(word: string, chosen: Unit): Parsed {
  const labels = unitsFor(chosen.quantity, chosen.system).map((one) => one.label);
  const message = `“${word}” is not a unit for this. Enter a number and one of: ${labels.join(", ")}.`;
  return { ok: false, code: "unit", message };
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
  return String(Number((si / chosen.factor).toPrecision(6)));
}
