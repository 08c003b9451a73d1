/** A zone's form as typed: nothing is converted before it can be read, and what was typed is kept. */
import { amountIn, parse, readNumber, type System, type Typed, unitOf } from "../format";
import type { Row } from "../store/types";
import { given } from "./entries";

export type Method = "shapes" | "offsets" | "radii" | "typed";
export type ShapeKey = "rectangle" | "triangle" | "triangle_sides" | "circle" | "ellipse" | "trapezoid";

interface ShapeSort {
  /** The engine's name for it. */
  shape: string;
  says: string;
  sizes: readonly (readonly [field: string, label: string])[];
}

export const SHAPES: Record<ShapeKey, ShapeSort> = {
  rectangle: {
    shape: "rectangle",
    says: "Rectangle",
    sizes: [
      ["length_m", "Length"],
      ["width_m", "Width"],
    ],
  },
  triangle: {
    shape: "triangle",
    says: "Triangle, base and height",
    sizes: [
      ["base_m", "Base"],
      ["height_m", "Height, square to the base"],
    ],
  },
  triangle_sides: {
    shape: "triangle",
    says: "Triangle, three sides",
    sizes: [
      ["a_m", "First side"],
      ["b_m", "Second side"],
      ["c_m", "Third side"],
    ],
  },
  circle: { shape: "circle", says: "Circle", sizes: [["radius_m", "Radius, middle to edge"]] },
  ellipse: {
    shape: "ellipse",
    says: "Oval",
    sizes: [
      ["length_m", "Length, end to end"],
      ["width_m", "Width, edge to edge"],
    ],
  },
  trapezoid: {
    shape: "trapezoid",
    says: "Two sides parallel",
    sizes: [
      ["side_a_m", "One parallel side"],
      ["side_b_m", "Other parallel side"],
      ["height_m", "Distance between them"],
    ],
  },
};

export interface PartForm {
  key: string;
  shape: ShapeKey;
  add: boolean;
  sizes: Record<string, Typed>;
}

/** Lengths that share one unit: the lines of offsets or radii. */
export interface LinesForm {
  amounts: string[];
  unit: string;
}

export interface Measures {
  method: Method;
  parts: PartForm[];
  /** How far one measured length is likely off, in percent; blank where nothing is known. */
  lengthError: string;
  spacing: Typed;
  offsets: LinesForm;
  rule: "sum" | "simpson";
  radii: LinesForm;
  area: Typed;
}

export interface ZoneForm {
  name: string;
  measures: Measures;
  grass: string;
  cut: Typed;
  mowEvery: string;
  sun: string;
  slope: string;
  soil: string;
  nearWater: boolean;
  remarks: string;
  show: boolean;
}

export type Errors = Record<string, string>;

export interface Measured {
  errors: Errors;
  /** The engine call; null for a typed area or while something is wrong. */
  call: { name: string; args: object } | null;
  /** Only for a typed area. */
  area_m2?: number;
}

export function newPart(key: string, system: System, add = true): PartForm {
  return { key, shape: "rectangle", add, sizes: blankSizes("rectangle", unitOf("length", system).key) };
}

export function blankSizes(shape: ShapeKey, unit: string): Record<string, Typed> {
  return Object.fromEntries(SHAPES[shape].sizes.map(([field]) => [field, { amount: "", unit }]));
}

function blankMeasures(system: System): Measures {
  const unit = unitOf("length", system).key;
  return {
    method: "shapes",
    parts: [newPart("1", system)],
    lengthError: "",
    spacing: { amount: "", unit },
    offsets: { amounts: ["", "", ""], unit },
    rule: "sum",
    radii: { amounts: ["", "", "", "", "", ""], unit },
    area: { amount: "", unit: unitOf("area", system).key },
  };
}

export function blankForm(system: System): ZoneForm {
  return {
    name: "",
    measures: blankMeasures(system),
    grass: "",
    cut: { amount: "", unit: unitOf("height", system).key },
    mowEvery: "",
    sun: "",
    slope: "",
    soil: "",
    nearWater: false,
    remarks: "",
    show: false,
  };
}

/** The form of a zone in the book, as it was typed; where nothing typed is on record, in metres or the person's units. */
export function formOf(row: Row, system: System): ZoneForm {
  const of = (group: string): Record<string, any> => row.groups[group]?.value ?? {};
  const { cut_height_mm, cut_height_typed, mow_every_days } = of("cut");
  const site = of("site");
  const blank = blankForm(system);
  return {
    name: of("name")["name"] ?? "",
    measures: { ...blank.measures, ...measuresOf(of("ground"), system) },
    grass: of("grass")["grass"] ?? "",
    cut:
      cut_height_typed ??
      (cut_height_mm ? { amount: amountIn(cut_height_mm, blank.cut.unit), unit: blank.cut.unit } : blank.cut),
    mowEvery: mow_every_days === undefined || mow_every_days === null ? "" : String(mow_every_days),
    sun: site["sun"] ?? "",
    slope: site["slope"] ?? "",
    soil: site["soil"] ?? "",
    nearWater: site["near_water"] === true,
    remarks: site["remarks"] ?? "",
    show: of("show")["show_patch"] === true,
  };
}

function measuresOf(ground: Record<string, any>, system: System): Partial<Measures> {
  const typed = ground["measured"]?.typed;
  const method = ground["method"] as Method | undefined;
  if (!method) return {};
  if (legible(typed, method)) return typed;
  const rebuilt = fromArguments(method, ground["measured"]?.args ?? ground["measured"] ?? {});
  if (rebuilt) return rebuilt;
  const unit = unitOf("area", system).key;
  const area = ground["measured"]?.area_typed ?? { amount: amountIn(ground["area_m2"] ?? 0, unit), unit };
  return { method: "typed", area };
}

/** Whether what is kept as typed is in the shape this form reads; another build may have written it otherwise. */
function legible(typed: any, method: Method): typed is Partial<Measures> {
  if (!typed || typeof typed !== "object" || typed.method !== method) return false;
  const isTyped = (value: any) => typeof value?.amount === "string" && typeof value.unit === "string";
  const isLines = (value: any) => Array.isArray(value?.amounts) && typeof value.unit === "string";
  const isPart = (part: any) => part?.shape in SHAPES && Object.values(part.sizes ?? {}).every(isTyped);
  switch (method) {
    case "shapes":
      return Array.isArray(typed.parts) && typed.parts.every(isPart);
    case "offsets":
      return isTyped(typed.spacing) && isLines(typed.offsets);
    case "radii":
      return isLines(typed.radii);
    case "typed":
      return isTyped(typed.area);
    default:
      return false;
  }
}

const metres = (value: unknown): Typed => ({ amount: amountIn(Number(value), "m"), unit: "m" });
const lines = (values: unknown): LinesForm => ({
  amounts: (values as number[]).map((value) => amountIn(value, "m")),
  unit: "m",
});

/** From the engine's own arguments, for a zone written elsewhere. */
function fromArguments(method: Method, args: Record<string, any>): Partial<Measures> | undefined {
  if (method === "shapes" && Array.isArray(args["parts"]))
    return { method, parts: args["parts"].map(partOf) };
  if (method === "offsets" && Array.isArray(args["offsets_m"])) {
    const rule = args["method"] === "simpson" ? "simpson" : "sum";
    return { method, rule, spacing: metres(args["spacing_m"]), offsets: lines(args["offsets_m"]) };
  }
  if (method === "radii" && Array.isArray(args["radii_m"])) return { method, radii: lines(args["radii_m"]) };
  return undefined;
}

function partOf(part: Record<string, any>, at: number): PartForm {
  const named = part["shape"] === "triangle" && part["a_m"] !== undefined ? "triangle_sides" : part["shape"];
  const shape: ShapeKey = named in SHAPES ? named : "rectangle";
  const sizes = Object.fromEntries(SHAPES[shape].sizes.map(([field]) => [field, metres(part[field] ?? 0)]));
  return { key: String(at + 1), shape, add: part["add"] !== false, sizes };
}

/** One length of the form in metres; what is wrong with it goes into `errors` under `at`. */
function metresOf(
  typed: Typed,
  label: string,
  at: string,
  errors: Errors,
  least: "above 0" | "from 0",
): number {
  const read = parse(typed.amount, typed.unit);
  if (!read.ok) {
    errors[at] =
      read.code === "empty" ? `${label} is missing. Write a length such as 12 or 12.5.` : read.message;
    return 0;
  }
  if (read.si < 0 || (least === "above 0" && read.si === 0)) {
    errors[at] =
      least === "above 0" ? `${label} must be more than 0.` : `${label} cannot be below 0; 0 is allowed.`;
  }
  return read.si;
}

/** The likely error of a length as a share; asked of nobody who left it blank. */
function errorShare(text: string, errors: Errors): number | undefined {
  if (!text.trim()) return undefined;
  const read = readNumber(text);
  if (!read.ok) errors["lengthError"] = read.message;
  else if (read.value < 0 || read.value > 30) errors["lengthError"] = "Likely error must be 0 to 30%.";
  else return read.value / 100;
  return undefined;
}

function measuredShapes({ parts, lengthError }: Measures, errors: Errors): object {
  return {
    ...given({ length_error_share: errorShare(lengthError, errors) }),
    parts: parts.map(({ key, shape, add, sizes }) => ({
      shape: SHAPES[shape].shape,
      add,
      ...Object.fromEntries(
        SHAPES[shape].sizes.map(([field, label]) => {
          const typed = sizes[field] ?? { amount: "", unit: "m" };
          return [field, metresOf(typed, label, `parts.${key}.${field}`, errors, "above 0")];
        }),
      ),
    })),
  };
}

function measuredLines(
  form: LinesForm,
  what: string,
  at: string,
  errors: Errors,
  least: "above 0" | "from 0",
): number[] {
  return form.amounts.map((amount, k) =>
    metresOf({ amount, unit: form.unit }, `${what} ${k + 1}`, `${at}.${k}`, errors, least),
  );
}

/** Reads the measurements: the engine call they make, or what is wrong with which field. */
export function measuredBy(form: Measures): Measured {
  const errors: Errors = {};
  const done = (name: string, args: object): Measured => ({
    errors,
    call: Object.keys(errors).length ? null : { name, args },
  });
  switch (form.method) {
    case "shapes":
      return done("area.shapes", measuredShapes(form, errors));
    case "offsets": {
      const spacing_m = metresOf(form.spacing, "Spacing", "spacing", errors, "above 0");
      const offsets_m = measuredLines(form.offsets, "Width", "offsets", errors, "from 0");
      return done("area.offsets", { spacing_m, offsets_m, method: form.rule });
    }
    case "radii":
      return done("area.radii", { radii_m: measuredLines(form.radii, "Length", "radii", errors, "above 0") });
    case "typed":
      return typedArea(form.area, errors);
  }
}

function typedArea(area: Typed, errors: Errors): Measured {
  const read = parse(area.amount, area.unit);
  if (read.ok && read.si > 0) return { errors, call: null, area_m2: read.si };
  errors["area"] = read.ok
    ? "Area must be more than 0."
    : read.code === "empty"
      ? "Area is missing. Write a number such as 5,000."
      : read.message;
  return { errors, call: null };
}

/** The part of the measurements that is kept as typed: the method chosen and its own fields. */
export function typedMeasures(form: Measures): object {
  const { method, parts, lengthError, spacing, offsets, rule, radii, area } = form;
  const own = {
    shapes: { parts, lengthError },
    offsets: { spacing, offsets, rule },
    radii: { radii },
    typed: { area },
  };
  return { method, ...own[method] };
}

/** The groups a form stands for, the ground apart (its area comes from the engine). */
export function plainGroups(form: ZoneForm, errors: Errors): Record<string, Record<string, unknown>> {
  const cut = form.cut.amount.trim() ? parse(form.cut.amount, form.cut.unit) : undefined;
  const every = form.mowEvery.trim() ? readNumber(form.mowEvery) : undefined;
  if (cut && !cut.ok) errors["cut_height_mm"] = cut.message;
  if (every && !every.ok) errors["mow_every_days"] = every.message;
  return {
    name: { name: form.name.trim() },
    grass: given({ grass: form.grass }),
    cut: given({
      cut_height_mm: cut?.ok ? cut.si : undefined,
      cut_height_typed: cut?.ok ? cut.typed : undefined,
      mow_every_days: every?.ok ? every.value : undefined,
    }),
    site: {
      ...given({ sun: form.sun, slope: form.slope, soil: form.soil.trim(), remarks: form.remarks.trim() }),
      near_water: form.nearWater,
    },
    show: { show_patch: form.show },
  };
}
