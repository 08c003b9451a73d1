/** The forms of the shed as typed: nothing is converted before it can be read, and what was typed is kept. */

import { amountIn, type Quantity, readNumber, type System, type Typed, unitOf } from "../../../format";
import { parse } from "../../../forms/amount";
import type { Errors } from "../../../forms/form";
import type { Groups } from "../../../forms/record-form";
import type { Row } from "../../../platform/store/types";
import { given } from "../../../records/entries";
import { overWhole } from "../../../records/kinds";
import { groupToMend as groupOf } from "../../../records/reading";

export interface ProductForm {
  name: string;
  sort: string;
  net: Typed;
  coverage: Typed;
  n: string;
  p2o5: string;
  k2o: string;
  /** Percent of the nitrogen. */
  slow: string;
  source: string;
  signal: string;
  watering: string;
  keepOff: string;
  interval: string;
  usesYear: string;
  seedWait: string;
  remarks: string;
  price: string;
  granules: string;
  density: Typed;
  /** A measure of it, filled level and weighed: asked for the density, kept while the form is open. */
  sampleVolume: Typed;
  sampleWeight: Typed;
}

export const HOPPER_FIELDS = [
  ["top_length_m", "A: length at the top"],
  ["top_width_m", "B: width at the top"],
  ["bottom_length_m", "C: length at the bottom"],
  ["bottom_width_m", "D: width at the bottom"],
  ["height_m", "E: height"],
] as const;

export type HopperField = (typeof HOPPER_FIELDS)[number][0];

export interface SpreaderForm {
  name: string;
  sort: string;
  lowest: string;
  highest: string;
  step: string;
  swath: Typed;
  speed: Typed;
  /** Whether its fan can be shut on one side. */
  deflector: boolean;
  hopper: Record<HopperField, Typed>;
  holds: Typed;
}

const blankTyped = (quantity: Quantity, system: System): Typed => ({
  amount: "",
  unit: unitOf(quantity, system).key,
});

/** Lengths of a hopper are written in inches or centimetres. */
const handLength = (system: System): Typed => ({ amount: "", unit: system === "us" ? "in" : "cm" });

export function blankProduct(system: System): ProductForm {
  return {
    name: "",
    sort: "fertilizer",
    net: blankTyped("mass", system),
    coverage: blankTyped("area", system),
    n: "",
    p2o5: "",
    k2o: "",
    slow: "",
    source: "",
    signal: "",
    watering: "unsaid",
    keepOff: "",
    interval: "",
    usesYear: "",
    seedWait: "",
    remarks: "",
    price: "",
    granules: "",
    density: blankTyped("density", system),
    sampleVolume: blankTyped("volume", system),
    sampleWeight: { amount: "", unit: system === "us" ? "oz" : "g" },
  };
}

export function blankSpreader(system: System): SpreaderForm {
  const hopper = HOPPER_FIELDS.map(([field]) => [field, handLength(system)]);
  return {
    name: "",
    sort: "rotary",
    lowest: "",
    highest: "",
    step: "",
    swath: blankTyped("length", system),
    speed: blankTyped("speed", system),
    deflector: false,
    hopper: Object.fromEntries(hopper) as SpreaderForm["hopper"],
    holds: blankTyped("mass", system),
  };
}

const textOf = (value: unknown): string => (value === undefined || value === null ? "" : String(value));

/** As typed where that is on record, else the stored value in the unit the field starts with. */
function typedOf(typed: unknown, si: unknown, blank: Typed): Typed {
  if (typed && typeof typed === "object" && "amount" in typed && "unit" in typed) return typed as Typed;
  return typeof si === "number" ? { amount: amountIn(si, blank.unit), unit: blank.unit } : blank;
}

export function productFormOf(row: Row, system: System): ProductForm {
  const blank = blankProduct(system);
  const [name, label, analysis] = [groupOf(row, "name"), groupOf(row, "label"), groupOf(row, "analysis")];
  const [caution, granules] = [groupOf(row, "caution"), groupOf(row, "granules")];
  const slow = analysis["slow_n_share"];
  return {
    name: textOf(name["name"]),
    sort: textOf(name["sort"] ?? blank.sort),
    net: typedOf(label["net_typed"], label["net_kg"], blank.net),
    coverage: typedOf(label["coverage_typed"], label["coverage_m2"], blank.coverage),
    n: textOf(analysis["n_percent"]),
    p2o5: textOf(analysis["p2o5_percent"]),
    k2o: textOf(analysis["k2o_percent"]),
    slow: typeof slow === "number" ? textOf(Number((slow * 100).toPrecision(6))) : textOf(slow),
    source: textOf(analysis["source"]),
    signal: textOf(caution["signal_word"]),
    watering: textOf(caution["water_in"] ?? blank.watering),
    keepOff: textOf(caution["keep_off_hours"]),
    interval: textOf(caution["interval_days"]),
    usesYear: textOf(caution["uses_year"]),
    seedWait: textOf(caution["seed_wait_days"]),
    remarks: textOf(caution["remarks"]),
    price: textOf(groupOf(row, "price")["price"]),
    granules: textOf(granules["granules"]),
    density: typedOf(undefined, granules["bulk_density_kg_m3"], blank.density),
    sampleVolume: blank.sampleVolume,
    sampleWeight: blank.sampleWeight,
  };
}

export function spreaderFormOf(row: Row, system: System): SpreaderForm {
  const blank = blankSpreader(system);
  const [dial, walking, hopper] = [groupOf(row, "dial"), groupOf(row, "walking"), groupOf(row, "hopper")];
  const typed = hopper["hopper_typed"] ?? {};
  const measures = HOPPER_FIELDS.map(([field]) => [
    field,
    typedOf(typed[field], hopper[field], blank.hopper[field]),
  ]);
  return {
    name: textOf(groupOf(row, "name")["name"]),
    sort: textOf(groupOf(row, "name")["sort"] ?? blank.sort),
    lowest: textOf(dial["lowest"]),
    highest: textOf(dial["highest"]),
    step: textOf(dial["step"]),
    swath: typedOf(walking["swath_typed"], walking["swath_m"], blank.swath),
    speed: typedOf(walking["speed_typed"], walking["speed_m_s"], blank.speed),
    deflector: walking["deflector"] === true,
    hopper: Object.fromEntries(measures) as SpreaderForm["hopper"],
    holds: typedOf(typed["holds_kg"], hopper["holds_kg"], blank.holds),
  };
}

/** Reads fields one by one; a blank one is not given, an unreadable one leaves its message under its name. */
function reader(errors: Errors, set: Record<string, string>) {
  return {
    amount(field: string, typed: Typed): { si?: number; typed?: Typed } {
      set[field] = typed.unit;
      if (typed.amount.trim() === "") return {};
      const read = parse(typed.amount, typed.unit);
      if (read.ok) return { si: read.si, typed: read.typed };
      errors[field] = read.message;
      return {};
    },
    number(field: string, text: string): number | undefined {
      if (text.trim() === "") return undefined;
      const read = readNumber(text.replace("%", ""));
      if (read.ok) return read.value;
      errors[field] = read.message;
      return undefined;
    },
  };
}

/** The groups a product form stands for, all SI; what cannot be read is said in `errors` by field. */
export function productGroups(form: ProductForm, errors: Errors, set: Record<string, string> = {}): Groups {
  const { amount, number } = reader(errors, set);
  const net = amount("net_kg", form.net);
  const coverage = amount("coverage_m2", form.coverage);
  const [n, p, k] = [
    number("n_percent", form.n),
    number("p2o5_percent", form.p2o5),
    number("k2o_percent", form.k2o),
  ];
  const slow = number("slow_n_share", form.slow);
  const three = given({ n_percent: n, p2o5_percent: p, k2o_percent: k });
  Object.assign(errors, { ...overWhole("product", "analysis", three), ...errors });
  return {
    name: { name: form.name.trim(), sort: form.sort },
    label: given({
      net_kg: net.si,
      net_typed: net.typed,
      coverage_m2: coverage.si,
      coverage_typed: coverage.typed,
    }),
    analysis: given({
      ...three,
      slow_n_share: slow === undefined ? undefined : slow / 100,
      source: form.source,
    }),
    caution: given({
      signal_word: form.signal,
      water_in: form.watering === "unsaid" ? undefined : form.watering,
      keep_off_hours: number("keep_off_hours", form.keepOff),
      interval_days: number("interval_days", form.interval),
      uses_year: number("uses_year", form.usesYear),
      seed_wait_days: number("seed_wait_days", form.seedWait),
      remarks: form.remarks.trim(),
    }),
    price: given({ price: number("price", form.price) }),
    granules: given({
      granules: form.granules,
      bulk_density_kg_m3: amount("bulk_density_kg_m3", form.density).si,
    }),
  };
}

/** A dial's own rules, beyond each number's range. */
function checkDial(dial: { lowest?: number; highest?: number; step?: number }, errors: Errors): void {
  const { lowest, highest, step } = dial;
  if (lowest === undefined || highest === undefined) return;
  if (highest <= lowest)
    errors["highest"] =
      `The highest number must be more than the lowest (${lowest}): there the gate is fully open.`;
  else if (step !== undefined && (step <= 0 || step > highest - lowest))
    errors["step"] = `One click must be more than 0 and at most ${highest - lowest}.`;
}

/** Five measures make a hopper: some but not all of them are of no use. */
function checkHopper(form: SpreaderForm, errors: Errors): void {
  const missing = HOPPER_FIELDS.filter(([field]) => form.hopper[field].amount.trim() === "");
  if (missing.length === 0 || missing.length === HOPPER_FIELDS.length) return;
  for (const [field] of missing) errors[field] ??= "Enter all five hopper measures, or clear the others.";
}

/** The groups a spreader form stands for, all SI. */
export function spreaderGroups(form: SpreaderForm, errors: Errors, set: Record<string, string> = {}): Groups {
  const { amount, number } = reader(errors, set);
  const fields = { lowest: number("lowest", form.lowest), highest: number("highest", form.highest) };
  const dial = given({ ...fields, step: number("step", form.step) });
  const [swath, speed] = [amount("swath_m", form.swath), amount("speed_m_s", form.speed)];
  const holds = amount("holds_kg", form.holds);
  const measures = HOPPER_FIELDS.map(([field]) => [field, amount(field, form.hopper[field])] as const);
  checkDial(dial, errors);
  checkHopper(form, errors);
  const typed = given({
    ...Object.fromEntries(measures.map(([field, read]) => [field, read.typed])),
    holds_kg: holds.typed,
  });
  return {
    name: { name: form.name.trim(), sort: form.sort },
    dial,
    walking: given({
      swath_m: swath.si,
      swath_typed: swath.typed,
      speed_m_s: speed.si,
      speed_typed: speed.typed,
      deflector: form.deflector || undefined,
    }),
    hopper: given({
      ...Object.fromEntries(measures.map(([field, read]) => [field, read.si])),
      holds_kg: holds.si,
      hopper_typed: Object.keys(typed).length ? typed : undefined,
    }),
  };
}
