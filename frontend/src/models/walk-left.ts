/**
 * What a person says is left after a pass, brought to kg. Levels are turned into kg by the engine
 * (`hopper.mass`); here amounts are only read, added up and checked against what was loaded.
 */
import { mass, parse, readNumber, type System, type Typed } from "../format";
import type { LeftForm, Plan, Reading } from "./walk-types";

export type LeftField = "weight" | "level" | "density" | "in_bag" | "handfuls" | "handful" | "covered";
export type ReadLeft = { ok: true; reading: Reading } | { ok: false; field: LeftField; message: string };

/** A reading of the hopper's level, as `hopper.mass` answers it. */
export interface HopperMass {
  mass_kg: number;
  sd_kg: number;
  capacity_kg: number;
}

export interface LeftContext {
  plan: Plan;
  start_kg: number;
  system: System;
  /** The engine's answer for the drawn level; null while it is not there or the measures are unknown. */
  hopper: HopperMass | null;
}

/** A scale shows a little more than went in: this much is taken as nothing used. */
const SCALE_SLACK = 0.01;
/** Handfuls differ by about a quarter (spreading.md: handfuls 25 %). */
const HANDFUL_SD_SHARE = 0.25;

const no = (field: LeftField, message: string): ReadLeft => ({ ok: false, field, message });

type Amount = { si: number } | { message: string };

/** An amount that may be 0 but not less. */
function amount(typed: Typed, empty: string): Amount {
  const read = parse(typed.amount, typed.unit);
  if (!read.ok) return { message: read.code === "empty" ? empty : read.message };
  return read.si < 0 ? { message: "It cannot be less than 0. Write 0 if nothing is left." } : { si: read.si };
}

/** "60", "60 %", "9 of 14", "9/14" as a share of the ground above 0 and up to 1. */
export function readShare(text: string): Amount {
  const said = "Write percent of the ground (60) or strips walked of all strips (9 of 14).";
  const parts = /^\s*(.+?)\s*(?:\/|of)\s*(.+?)\s*$/i.exec(text);
  const numbers = (parts ? [parts[1], parts[2]] : [text.replace("%", ""), "100"]).map((one) =>
    readNumber(one ?? ""),
  );
  const [done, all] = numbers.map((one) => (one.ok ? one.value : Number.NaN));
  const share = (done ?? Number.NaN) / (all ?? Number.NaN);
  if (!Number.isFinite(share)) return { message: said };
  if (share <= 0 || share > 1)
    return { message: `It must be more than 0 and at most all of the ground. ${said}` };
  return { si: share };
}

function checked(left_kg: number, field: LeftField, context: LeftContext, rest: Partial<Reading>): ReadLeft {
  const { plan, start_kg, system } = context;
  if (left_kg > start_kg * (1 + SCALE_SLACK)) {
    const most = mass(start_kg, system).text;
    return no(
      field,
      `That is more than the ${most} there was before this pass. At most ${most} can be left.`,
    );
  }
  const left = Math.min(left_kg, start_kg);
  const reading: Reading = {
    left_kg: left,
    used_kg: start_kg - left,
    area_m2: plan.area_m2,
    measured: "scale",
    ran_out: false,
    nothing_came: false,
    left_sd_kg: null,
    left_typed: {},
    ...rest,
  };
  return { ok: true, reading };
}

function byScale(form: LeftForm, context: LeftContext): ReadLeft {
  const read = amount(form.weight, "Weigh what is left in hopper and bag, or choose another way.");
  if ("message" in read) return no("weight", read.message);
  return checked(read.si, "weight", context, { left_typed: { way: "scale", ...form.weight } });
}

/** The bulk density to read a level with: what was typed here, else the product's own. */
export function densityOf(form: LeftForm, plan: Plan): Amount {
  if (form.density.amount.trim() === "") {
    const own = plan.product.bulk_density_kg_m3;
    return own
      ? { si: own }
      : { message: "A level needs the bulk density: weigh a measured litre or quart of it." };
  }
  const read = parse(form.density.amount, form.density.unit);
  if (!read.ok) return { message: read.message };
  const fits = read.si >= 100 && read.si <= 2500;
  return fits ? { si: read.si } : { message: "Allowed: 100 to 2,500 kg/m³ (6.2 to 156 lb/ft³)." };
}

function byLevel(form: LeftForm, context: LeftContext): ReadLeft {
  if (form.level_share === null) return no("level", "Set the drawn level to where the product stands.");
  const density = densityOf(form, context.plan);
  if ("message" in density) return no("density", density.message);
  const bag = form.in_bag.amount.trim() === "" ? { si: 0 } : amount(form.in_bag, "");
  if ("message" in bag) return no("in_bag", bag.message);
  const { hopper } = context;
  if (!hopper)
    return no("level", "The level is still being worked out. Wait a moment, or weigh what is left.");
  const left_typed = { way: "level", level_share: form.level_share, in_bag: form.in_bag };
  const rest = {
    measured: "level",
    left_sd_kg: hopper.sd_kg,
    left_typed,
    bulk_density_kg_m3: density.si,
  } as const;
  return checked(hopper.mass_kg + bag.si, "level", context, rest);
}

function byHandfuls(form: LeftForm, context: LeftContext): ReadLeft {
  const count = readNumber(form.handfuls);
  if (!count.ok || count.value < 0) return no("handfuls", "Write how many handfuls are left: 0 or more.");
  const one = amount(form.handful, "Write what one handful weighs.");
  if ("message" in one) return no("handful", one.message);
  const left = count.value * one.si;
  const left_typed = { way: "handfuls", handfuls: form.handfuls, handful: form.handful };
  return checked(left, "handfuls", context, {
    measured: "handfuls",
    left_sd_kg: left * HANDFUL_SD_SHARE,
    left_typed,
  });
}

function ranOut(form: LeftForm, context: LeftContext): ReadLeft {
  const share = readShare(form.covered);
  if ("message" in share) return no("covered", share.message);
  const left_typed = { way: "ran_out", covered: form.covered };
  const area_m2 = context.plan.area_m2 * share.si;
  return checked(0, "covered", context, { ran_out: share.si < 1, area_m2, left_typed });
}

/** Reads what is left. Nothing is guessed: what cannot be read is an error beside its field. */
export function readLeft(form: LeftForm, context: LeftContext): ReadLeft {
  if (form.way === "scale") return byScale(form, context);
  if (form.way === "level") return byLevel(form, context);
  if (form.way === "handfuls") return byHandfuls(form, context);
  if (form.way === "ran_out") return ranOut(form, context);
  const left_typed = { way: "nothing" };
  return checked(context.start_kg, "weight", context, { nothing_came: true, left_typed });
}
