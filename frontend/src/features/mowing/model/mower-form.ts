/** A mower's form as typed: nothing is converted before it can be read, and what was typed is kept. */
import { amountIn, readNumber, type System, type Typed, unitOf } from "../../../format";
import { parse } from "../../../forms/amount";
import type { Errors } from "../../../forms/form";
import type { Groups, RecordShape } from "../../../forms/record-form";
import type { Row } from "../../../platform/store/types";
import { given } from "../../../records/entries";
import { allowed, type Limits } from "../../../records/kinds";
import { groupToMend } from "../../../records/reading";
import type { Notch } from "./mowers";

export interface NotchForm {
  label: string;
  height: Typed;
}

export interface MowerForm {
  name: string;
  notches: readonly NotchForm[];
  lowest: Typed;
  highest: Typed;
  sharpened: string;
  hours: string;
}

/** A height of a notch, as the contract's own list of them is checked (lawn/contract/forms.py). */
const NOTCH: Limits = {
  type: "number",
  low: 5,
  high: 200,
  unit: "mm",
  label: "Measured height",
  required: true,
};
const LONGEST = 20;
export const MOST_NOTCHES = 40;

const blankHeight = (system: System): Typed => ({ amount: "", unit: unitOf("height", system).key });

export const blankNotch = (label: string, system: System): NotchForm => ({
  label,
  height: blankHeight(system),
});

/** Levers have about five notches; those left blank are not kept. */
export function blankMower(system: System): MowerForm {
  return {
    name: "",
    notches: ["1", "2", "3", "4", "5"].map((label) => blankNotch(label, system)),
    lowest: blankHeight(system),
    highest: blankHeight(system),
    sharpened: "",
    hours: "",
  };
}

function typedHeight(typed: unknown, mm: unknown, system: System): Typed {
  if (typed && typeof typed === "object" && "amount" in typed && "unit" in typed) return typed as Typed;
  const blank = blankHeight(system);
  return typeof mm === "number" ? { ...blank, amount: amountIn(mm, blank.unit) } : blank;
}

const textOf = (value: unknown): string => (value === undefined || value === null ? "" : String(value));

export function mowerFormOf(row: Row, system: System): MowerForm {
  const [deck, blade] = [groupToMend(row, "deck"), groupToMend(row, "blade")];
  const notches: readonly Partial<Notch>[] = Array.isArray(deck["notches"]) ? deck["notches"] : [];
  return {
    name: textOf(groupToMend(row, "name")["name"]),
    notches: notches.map((notch) => ({
      label: textOf(notch?.label),
      height: typedHeight(notch?.measured_typed, notch?.measured_mm, system),
    })),
    lowest: typedHeight(deck["lowest_typed"], deck["lowest_mm"], system),
    highest: typedHeight(deck["highest_typed"], deck["highest_mm"], system),
    sharpened: textOf(blade["sharpened_on"]),
    hours: textOf(blade["hours_between"]),
  };
}

/** A measured height, or what is wrong with it; nothing for a blank one. */
export function measured(height: Typed): { mm?: number; typed?: Typed; wrong?: string } {
  if (!height.amount.trim()) return {};
  const read = parse(height.amount, height.unit);
  if (!read.ok) return { wrong: read.message };
  const { low = 0, high = 0 } = NOTCH;
  if (read.si >= low && read.si <= high) return { mm: read.si, typed: read.typed };
  const which = read.si < low ? "small" : "large";
  return { wrong: `${NOTCH.label} is too ${which}. ${allowed(NOTCH, "us", height.unit)}` };
}

/** Less than any ruler tells: 3 in typed twice may differ in its last bits. */
const RULER_MM = 0.05;

export const isSameHeight = (one: number, other: number): boolean => Math.abs(one - other) < RULER_MM;

const SAME = "Two notches have this height. Measure both again.";

/** The notches that were measured; what is wrong with one is said under its number: "label 2", "height 2". */
function notchesIn(form: MowerForm, errors: Errors): Notch[] {
  const found: Notch[] = [];
  form.notches.forEach(({ label, height }, at) => {
    const { mm, typed, wrong } = measured(height);
    const [name, place] = [label.trim(), found.length];
    if (wrong) errors[`height ${at}`] = wrong;
    if (mm === undefined) return;
    if (!name) errors[`label ${at}`] = "Enter what is written beside this notch.";
    else if ([...name].length > LONGEST) errors[`label ${at}`] = `At most ${LONGEST} characters are allowed.`;
    else if (found.some((one) => one.label === name)) errors[`label ${at}`] = "Two notches have this label.";
    if (found.some((one) => isSameHeight(one.measured_mm, mm))) errors[`height ${at}`] = SAME;
    found[place] = { label: name, measured_mm: mm, ...(typed ? { measured_typed: typed } : {}) };
  });
  return found;
}

function amount(field: string, height: Typed, errors: Errors, set: Record<string, string>) {
  set[`${field}_mm`] = height.unit;
  if (!height.amount.trim()) return {};
  const read = parse(height.amount, height.unit);
  if (read.ok) return { [`${field}_mm`]: read.si, [`${field}_typed`]: read.typed };
  errors[`${field}_mm`] = read.message;
  return {};
}

function hoursIn(text: string, errors: Errors): number | undefined {
  if (!text.trim()) return undefined;
  const read = readNumber(text);
  if (read.ok) return read.value;
  errors["hours_between"] = read.message;
  return undefined;
}

export function mowerGroups(form: MowerForm, errors: Errors, set: Record<string, string> = {}): Groups {
  const notches = notchesIn(form, errors);
  const ends = {
    ...amount("lowest", form.lowest, errors, set),
    ...amount("highest", form.highest, errors, set),
  } as Record<string, number>;
  const { lowest_mm, highest_mm } = ends;
  if (lowest_mm !== undefined && highest_mm !== undefined && highest_mm <= lowest_mm)
    errors["highest_mm"] = "The highest cutting height must be more than the lowest.";
  return {
    name: { name: form.name.trim() },
    deck: { ...(notches.length ? { notches } : {}), ...ends },
    blade: given({ sharpened_on: form.sharpened, hours_between: hoursIn(form.hours, errors) }),
  };
}

export const MOWER: RecordShape<MowerForm> = {
  t: "mower",
  blank: blankMower,
  formOf: mowerFormOf,
  groupsOf: mowerGroups,
  needed: ["name"],
};
