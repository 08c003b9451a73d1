/** A zone's form as typed: nothing is converted before it can be read, and what was typed is kept. */

import { amountIn, readNumber, type System, type Typed, unitOf } from "../../../format";
import { parse } from "../../../forms/amount";
import type { Args } from "../../../platform/engine/types";
import type { Row } from "../../../platform/store/types";
import { given } from "../../../records/entries";
import { groupToMend } from "../../../records/reading";
import { type GpsForm, NO_WALK } from "./gps-trace";
import { formOfOutline, isOutline, NO_OUTLINE, type OutlineForm } from "./outline";
import { noTrace, type TraceForm } from "./trace";
import { waterOn } from "./zone-outline";
import { ruleOf, type WidthRule } from "./zone-widths";

export type Method = "shapes" | "offsets" | "radii" | "gps" | "trace" | "outline" | "typed";
export type ShapeKey = "rectangle" | "triangle" | "triangle_sides" | "circle" | "ellipse" | "trapezoid";

interface ShapeSort {
  /** The engine's name for it. */
  shape: Args<"area.shapes">["parts"][number]["shape"];
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
  rule: WidthRule;
  radii: LinesForm;
  gps: GpsForm;
  trace: TraceForm;
  outline: OutlineForm;
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
  /** How long its edge at the water is, and how much stays clear there; blank where not known. */
  waterEdge: Typed;
  setback: Typed;
  remarks: string;
  /** Degrees clockwise from up on the outline, as typed; blank where the plan may choose. */
  heading: string;
  show: boolean;
}

export type Errors = Record<string, string>;

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
    rule: "ends",
    radii: { amounts: ["", "", "", "", "", ""], unit },
    gps: NO_WALK,
    trace: noTrace(unit),
    outline: NO_OUTLINE,
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
    waterEdge: { amount: "", unit: unitOf("length", system).key },
    setback: { amount: "", unit: unitOf("length", system).key },
    remarks: "",
    heading: "",
    show: false,
  };
}

/** The form of a zone in the book, as it was typed; where nothing typed is on record, in metres or the person's units. */
export function formOf(row: Row, system: System): ZoneForm {
  const of = (group: string) => groupToMend(row, group);
  const { cut_height_mm, cut_height_typed, mow_every_days } = of("cut");
  const site = of("site");
  const heading = of("strips")["heading_deg"];
  const blank = blankForm(system);
  return {
    name: of("name")["name"] ?? "",
    measures: withWater(
      { ...blank.measures, ...drawnOf(of("ground")), ...measuresOf(of("ground"), system) },
      of("ground"),
    ),
    grass: of("grass")["grass"] ?? "",
    cut:
      asTyped(cut_height_typed) ??
      (cut_height_mm ? { amount: amountIn(cut_height_mm, blank.cut.unit), unit: blank.cut.unit } : blank.cut),
    mowEvery: mow_every_days === undefined || mow_every_days === null ? "" : String(mow_every_days),
    sun: site["sun"] ?? "",
    slope: site["slope"] ?? "",
    soil: site["soil"] ?? "",
    nearWater: site["near_water"] === true,
    waterEdge: asTyped(site["water_edge_typed"]) ?? lengthOr(site["water_edge_m"], blank.waterEdge),
    setback: asTyped(site["setback_typed"]) ?? lengthOr(site["setback_m"], blank.setback),
    remarks: site["remarks"] ?? "",
    heading: heading === undefined || heading === null ? "" : String(heading),
    show: of("show")["show_patch"] === true,
  };
}

const lengthOr = (m: unknown, blank: Typed): Typed =>
  typeof m === "number" ? { amount: amountIn(m, blank.unit), unit: blank.unit } : blank;

/** The outline on record, to draw on from whichever way the zone was measured. */
function drawnOf({ outline }: Record<string, any>): Partial<Measures> {
  if (!isOutline(outline)) return {};
  return { outline: { ...formOfOutline(outline), ...(outline.drawn ? { drawn: true } : {}) } };
}

/** With the edges at the water as the record has them, whatever was typed once. */
function withWater(measures: Measures, ground: Record<string, any>): Measures {
  const { water: _, ...outline } = measures.outline;
  return { ...measures, outline: { ...outline, ...waterOn(ground) } };
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

/** An amount as it was typed; nothing where another build wrote it otherwise. */
function asTyped(typed: any): Typed | undefined {
  return typeof typed?.amount === "string" && typeof typed.unit === "string" ? typed : undefined;
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
    case "trace":
      return (
        isTyped(typed.trace?.distance) && Array.isArray(typed.trace.rings) && Array.isArray(typed.trace.known)
      );
    case "outline":
      return Array.isArray(typed.outline?.points) && Array.isArray(typed.outline.holes);
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
    const rule = ruleOf(args["method"]);
    return { method, rule, spacing: metres(args["spacing_m"]), offsets: lines(args["offsets_m"]) };
  }
  if (method === "radii" && Array.isArray(args["radii_m"])) return { method, radii: lines(args["radii_m"]) };
  if (method === "gps" && Array.isArray(args["fixes"]))
    return { method, gps: { fixes: args["fixes"], marks: [0], state: "closed" } };
  if (method === "outline" && isOutline(args)) return { method, outline: formOfOutline(args) };
  return undefined;
}

function partOf(part: Record<string, any>, at: number): PartForm {
  const named = part["shape"] === "triangle" && part["a_m"] !== undefined ? "triangle_sides" : part["shape"];
  const shape: ShapeKey = named in SHAPES ? named : "rectangle";
  const sizes = Object.fromEntries(SHAPES[shape].sizes.map(([field]) => [field, metres(part[field] ?? 0)]));
  return { key: String(at + 1), shape, add: part["add"] !== false, sizes };
}

/** The part of the measurements that is kept as typed: the method chosen and its own fields. */
export function typedMeasures(form: Measures): object {
  const { method, parts, lengthError, spacing, offsets, rule, radii, gps, trace, outline, area } = form;
  const own = {
    shapes: { parts, lengthError },
    offsets: { spacing, offsets, rule },
    radii: { radii },
    gps: { gps },
    trace: { trace },
    outline: { outline },
    typed: { area },
  };
  return { method, ...own[method] };
}

/** The same as the record keeps it: the fixes of a job stand among the call's arguments, once. */
export function keptMeasures(form: Measures): object {
  return form.method === "gps" ? { method: form.method } : typedMeasures(form);
}

/** A length as typed; nothing where it is blank or cannot be read, which is then said under its field. */
function lengthIn(field: string, typed: Typed, errors: Errors): { si: number; typed: Typed } | undefined {
  if (!typed.amount.trim()) return undefined;
  const read = parse(typed.amount, typed.unit);
  if (!read.ok) errors[field] = read.message;
  return read.ok ? read : undefined;
}

/** The groups a form stands for, the ground apart (its area comes from the engine). */
export function plainGroups(form: ZoneForm, errors: Errors): Record<string, Record<string, unknown>> {
  const cut = form.cut.amount.trim() ? parse(form.cut.amount, form.cut.unit) : undefined;
  const every = form.mowEvery.trim() ? readNumber(form.mowEvery) : undefined;
  const heading = form.heading.trim() ? readNumber(form.heading) : undefined;
  if (cut && !cut.ok) errors["cut_height_mm"] = cut.message;
  if (every && !every.ok) errors["mow_every_days"] = every.message;
  if (heading && !heading.ok) errors["heading_deg"] = heading.message;
  const edge = lengthIn("water_edge_m", form.waterEdge, errors);
  const setback = lengthIn("setback_m", form.setback, errors);
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
      ...given({
        water_edge_m: edge?.si,
        water_edge_typed: edge?.typed,
        setback_m: setback?.si,
        setback_typed: setback?.typed,
      }),
    },
    strips: given({ heading_deg: heading?.ok ? heading.value : undefined }),
    show: { show_patch: form.show },
  };
}
