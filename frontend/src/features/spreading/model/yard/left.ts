/**
 * What a person says is left, at the end of a pass or on the way. Here it is only read; kilograms are the engine's
 * (`spread.close_pass` for level and balance, `swath.tour` for a part of the ground).
 */

import { area, mass, readNumber, type System, type Typed } from "../../../../format";
import { parse } from "../../../../forms/amount";
import { sayRefusal } from "../../../../forms/refusal";
import type { Answer, Args, EngineCall, Value } from "../../../../platform/engine/types";
import { given } from "../../../../records/entries";
import { checkGroup, limits } from "../../../../records/kinds";
import type { PassPart } from "../../../../records/pass-history";
import type { Hopper } from "../../../../records/products";
import { hopperArgs } from "../asks";
import type { ClosedValue } from "../sums";
import type { LeftForm, PassOnFoot, Plan, Reading } from "../types";
import { coveredBy, groundOf, type Part, partArgs } from "./rows";

export type LeftField =
  | "weight"
  | "level"
  | "density"
  | "in_bag"
  | "handfuls"
  | "handful"
  | "covered"
  | "whole";
export interface LeftTrouble {
  ok: false;
  field: LeftField;
  message: string;
}
export type ReadLeft = { ok: true; reading: Reading; parts: PassPart[] } | LeftTrouble;

/** A reading of the hopper's level, as `hopper.mass` answers it. */
export type HopperMass = Value<"hopper.mass">;

export interface LeftContext {
  plan: Plan;
  pass: PassOnFoot;
  hopper: Hopper | undefined;
  system: System;
}

/** What the person said, ready for the engine. */
export interface LeftAsk {
  /** The field an engine's refusal belongs to. */
  field: LeftField;
  measured: Reading["measured"];
  /** What is left, as `spread.close_pass` takes it. */
  left: Record<string, number>;
  /** Hopper, level and density, where a level was read. */
  level: Args<"hopper.mass"> | null;
  /** Not in the hopper, where said, kg. */
  in_bag_kg: number | null;
  typed: object;
  ran_out: boolean;
  nothing_came: boolean;
  density?: number;
}

const no = (field: LeftField, message: string): LeftTrouble => ({ ok: false, field, message });

type Amount = { si: number } | { message: string };

/** An amount that may be 0 but not less. */
export function amount(typed: Typed, empty: string): Amount {
  const read = parse(typed.amount, typed.unit);
  if (!read.ok) return { message: read.code === "empty" ? empty : read.message };
  return read.si < 0 ? { message: "Enter 0 or more." } : { si: read.si };
}

const SAID = "Enter percent (60) or strips (9 of 14).";

/** "60", "60 %", "9 of 14", "9/14": a part of the ground above none and up to all, in whole numbers. */
export function readPart(text: string): Part | { message: string } {
  const parts = /^(.+?)\s*of\s*(.+)$/i.exec(text) ?? /^([^/]+)\/([^/]+)$/.exec(text);
  const words = parts ? [parts[1], parts[2]] : [text.replace("%", ""), "100"];
  const [walked, of] = words.map((one) => {
    const read = readNumber(one ?? "");
    return read.ok ? read.value : Number.NaN;
  }) as [number, number];
  if (!Number.isFinite(walked) || !Number.isFinite(of) || of <= 0) return { message: SAID };
  if (walked <= 0 || walked > of) return { message: `It must be more than 0 and at most all of it. ${SAID}` };
  return inWhole(walked, of);
}

/** The ground is cut into no more strips than the engine takes. */
const MOST_STRIPS = 1000;

function inWhole(walked: number, of: number): Part | { message: string } {
  const fine = [1, 2, 4, 10].find((k) => Number.isInteger(walked * k) && Number.isInteger(of * k));
  if (!fine || of * fine > MOST_STRIPS) return { message: `That is too fine a part. ${SAID}` };
  return { walked: walked * fine, of: of * fine };
}

/** The bulk density to read a level with: what was typed here, else the product's own. */
export function densityOf(form: LeftForm, plan: Plan, system: System = "us"): Amount {
  if (form.density.amount.trim() === "") {
    const own = plan.product.bulk_density_kg_m3;
    return own ? { si: own } : { message: "Enter the bulk density. Weigh one liter or quart of it." };
  }
  const read = parse(form.density.amount, form.density.unit);
  if (!read.ok) return { message: read.message };
  const field = "bulk_density_kg_m3";
  const set = { [field]: form.density.unit };
  const message = checkGroup("entry", "pass", { [field]: read.si }, system, set)[field];
  return message ? { message } : { si: read.si };
}

const PLAIN = { level: null, in_bag_kg: null, ran_out: false, nothing_came: false };

function byScale(form: LeftForm): LeftAsk | LeftTrouble {
  const read = amount(form.weight, "Weigh what is left in hopper and bag, or measure another way.");
  if ("message" in read) return no("weight", read.message);
  const typed = { way: "scale", ...form.weight };
  return { ...PLAIN, field: "weight", measured: "scale", left: { left_kg: read.si }, typed };
}

function byLevel(form: LeftForm, { plan, hopper, system }: LeftContext): LeftAsk | LeftTrouble {
  if (form.level_share === null) return no("level", "Drag the level to where the product is.");
  const density = densityOf(form, plan, system);
  if ("message" in density) return no("density", density.message);
  const bag = form.in_bag.amount.trim() === "" ? { si: 0 } : amount(form.in_bag, "");
  if ("message" in bag) return no("in_bag", bag.message);
  const level = hopperArgs(hopper, density.si, form.level_share);
  if (!level) return no("level", "The hopper is not measured yet. Weigh what is left.");
  const typed = { way: "level", level_share: form.level_share, in_bag: form.in_bag };
  const left = { in_bag_kg: bag.si };
  const rest = { level, in_bag_kg: bag.si, typed, density: density.si };
  return { ...PLAIN, field: "level", measured: "level", left, ...rest };
}

function byHandfuls(form: LeftForm): LeftAsk | LeftTrouble {
  const count = readNumber(form.handfuls);
  if (!count.ok || count.value < 0) return no("handfuls", "Enter how many handfuls are left: 0 or more.");
  const one = amount(form.handful, "Enter what one handful weighs.");
  if ("message" in one) return no("handful", one.message);
  const typed = { way: "handfuls", handfuls: form.handfuls, handful: form.handful };
  const left = { handfuls: count.value, handful_kg: one.si };
  return { ...PLAIN, field: "handfuls", measured: "handfuls", left, typed };
}

/** What was said, as far as it can be read. Nothing is guessed: what cannot be read is an error beside its field. */
export function askLeft(form: LeftForm, context: LeftContext): LeftAsk | LeftTrouble {
  if (form.way === "scale") return byScale(form);
  if (form.way === "level") return byLevel(form, context);
  if (form.way === "handfuls") return byHandfuls(form);
  if (form.way === "ran_out") {
    const typed = { way: "ran_out", covered: form.covered };
    return { ...PLAIN, field: "covered", measured: "scale", left: { left_kg: 0 }, typed, ran_out: true };
  }
  const left = { left_kg: context.pass.part.there_kg };
  return {
    ...PLAIN,
    field: "weight",
    measured: "scale",
    left,
    typed: { way: "nothing" },
    nothing_came: true,
  };
}

/** What of a reading is not in the form: the ground, and whether the pass ends here. */
export interface Closing {
  covered_m2: number;
  /** Ground the pass has to cover. */
  ground_m2: number;
  /** A check on the way: the pass goes on. */
  goes_on?: boolean;
}

function closeArgs({ pass }: LeftContext, ask: LeftAsk, closing: Closing): Args<"spread.close_pass"> {
  const { dial, part, parts, start_kg, start_sd_kg, added_kg } = pass;
  const { there_kg, there_sd_kg, area_m2: from_m2 } = part;
  const { measured, left, level, ran_out } = ask;
  return {
    stretch: { dial, there_kg, from_m2, ...given({ there_sd_kg }) },
    ...(parts.length ? { parts } : {}),
    ...(closing.goes_on ? {} : { start_kg, added_kg, ...given({ start_sd_kg }) }),
    measured,
    ...left,
    ...given({ level }),
    ...(ran_out ? { ran_out } : {}),
    ...closing,
  };
}

/** What is left and what was used since, by the engine; or what is wrong with what was said, beside its field. */
export async function closed(
  call: EngineCall,
  ask: LeftAsk,
  context: LeftContext,
  closing: Closing,
): Promise<ClosedValue | LeftTrouble> {
  const answer = await call("spread.close_pass", closeArgs(context, ask, closing));
  return answer.value ?? refused(answer, ask, context.system);
}

function refused({ error }: Answer<unknown>, { field }: LeftAsk, system: System): LeftTrouble {
  if (error?.name === "left_kg" && typeof error.high === "number") {
    const most = mass(error.high, system).text;
    return no(field, `You had ${most}. Enter that or less.`);
  }
  return no(field, sayRefusal(error, system) || "Can’t work out what was put down. Check what is left.");
}

/** Whether the person counted some strips, but not all: what of the ground was covered must then be said. */
export function partlyCounted({ rows, done }: PassOnFoot): boolean {
  return rows.length > 1 && done > 0 && done < rows.length;
}

type Area = { area_m2: number } | LeftTrouble;

/** Less ground than this is no pass: the book does not take it, nor does the engine. */
const LEAST_PASS_M2 = limits("entry", "pass", "area_m2").low ?? 0;

/** The ground this pass covered. */
export async function coveredArea(call: EngineCall, form: LeftForm, context: LeftContext): Promise<Area> {
  const found = await areaSaid(call, form, context);
  if ("ok" in found || found.area_m2 >= LEAST_PASS_M2) return found;
  const least = `A pass covers at least ${area(LEAST_PASS_M2, context.system).text}.`;
  return form.way === "ran_out"
    ? no("covered", `${least} Enter a larger part, or go back to the strips.`)
    : no("whole", `${least} Count more strips, or choose “All of it”.`);
}

async function areaSaid(call: EngineCall, form: LeftForm, context: LeftContext): Promise<Area> {
  const { plan, pass } = context;
  if (form.way === "ran_out") return ranOutArea(call, form, context);
  if (form.way === "nothing" || !partlyCounted(pass)) return { area_m2: groundOf(plan, pass) };
  if (form.whole === null) return no("whole", "Choose how much you covered.");
  return { area_m2: form.whole ? groundOf(plan, pass) : coveredBy(pass.rows, pass.done) };
}

async function ranOutArea(call: EngineCall, form: LeftForm, { plan, pass }: LeftContext): Promise<Area> {
  const part = readPart(form.covered);
  if ("message" in part) return no("covered", part.message);
  const area_m2 = await areaOfPart(call, plan, pass, part);
  if (area_m2 === null) return no("covered", "Can’t work out the area of that part. Enter it another way.");
  if (area_m2 < pass.part.area_m2)
    return no("covered", `${pass.part.rows} strips were done by the last check. Enter at least that.`);
  return { area_m2 };
}

/** A swath has no part in cutting one ground into equal strips; the engine asks for one all the same. */
const ANY_SWATH_M = 1;

async function areaOfPart(
  call: EngineCall,
  plan: Plan,
  pass: PassOnFoot,
  { walked, of }: Part,
): Promise<number | null> {
  const { rows } = pass;
  const ground_m2 = groundOf(plan, pass);
  if (of === rows.length && rows.length > 1) return coveredBy(rows, walked);
  if (walked === of) return ground_m2;
  const ask = partArgs(ground_m2, of, plan.swath_m ?? ANY_SWATH_M);
  const answer = await call("swath.tour", ask);
  return answer.value ? coveredBy(answer.value.rows, walked) : null;
}

/** Reads the end of a pass: what is left of all there was, and the ground it went on. */
export async function readLeft(call: EngineCall, form: LeftForm, context: LeftContext): Promise<ReadLeft> {
  const ask = askLeft(form, context);
  if ("ok" in ask) return ask;
  const ground = await coveredArea(call, form, context);
  if ("ok" in ground) return ground;
  const ground_m2 = groundOf(context.plan, context.pass);
  const said = await closed(call, ask, context, { covered_m2: ground.area_m2, ground_m2 });
  if ("ok" in said) return said;
  return { ok: true, reading: readingOf(ask, said, ground.area_m2), parts: said.parts };
}

/** A reading in the shape the book keeps; on the way what was used at the present setting. */
export function readingOf(ask: LeftAsk, said: ClosedValue, area_m2: number): Reading {
  const { measured, nothing_came, typed, density } = ask;
  const { left_kg, left_sd_kg, ran_out } = said;
  return {
    left_kg,
    used_kg: said.used_kg ?? said.stretch_kg,
    area_m2,
    measured,
    ran_out,
    nothing_came,
    left_sd_kg,
    left_typed: typed,
    ...(density ? { bulk_density_kg_m3: density } : {}),
  };
}
