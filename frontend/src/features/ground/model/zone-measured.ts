/** From what is written, fixed or traced on the form to the engine call that measures it, or what is wrong with which field. */

import { readNumber, type System, type Typed } from "../../../format";
import { parse } from "../../../forms/amount";
import { lastName, sayRefusal } from "../../../forms/refusal";
import type { Args, EngineError } from "../../../platform/engine/types";
import { given } from "../../../records/entries";
import { type GpsForm, gpsArgs } from "./gps-trace";
import { outlineArgs } from "./outline";
import { obstacles, pointing, type TraceForm } from "./trace";
import { type Errors, type LinesForm, type Measures, SHAPES } from "./zone-form";
import type { AreaCall, AreaCallName } from "./zone-outline";
import { WIDTH_METHODS } from "./zone-widths";

const LEAST_CORNERS = 3;

export interface Measured {
  errors: Errors;
  /** The engine call; null for a typed area or while something is wrong. */
  call: AreaCall | null;
  /** Only for a typed area. */
  area_m2?: number;
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
      read.code === "empty" ? `${label} is missing. Enter a length such as 12 or 12.5.` : read.message;
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

function measuredShapes({ parts, lengthError }: Measures, errors: Errors): Args<"area.shapes"> {
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

function walkedArgs(form: GpsForm, errors: Errors): Args<"area.gps"> {
  if (form.state !== "closed") errors["gps"] = "Walk around the edge, then tap Close the loop.";
  return gpsArgs(form);
}

function tracedArgs(form: TraceForm, errors: Errors): Args<"area.trace"> {
  const [from, to] = form.known;
  const distance_m = metresOf(form.distance, "The known distance", "trace.distance", errors, "above 0");
  const ground = form.rings[0] ?? [];
  if (!form.picture) errors["trace.picture"] = "Choose a picture of the plan.";
  else if (!from || !to) errors["trace.known"] = "Set two points you know the distance between.";
  else if (ground.length < LEAST_CORNERS) errors["trace.corners"] = "Set at least three corners of the zone.";
  else if (obstacles(form).some((ring) => ring.length < LEAST_CORNERS))
    errors["trace.corners"] = "An obstacle needs at least three corners. Add them, or undo the ones set.";
  const [x1, y1] = from ?? [0, 0];
  const [x2, y2] = to ?? [0, 0];
  const holes_px = obstacles(form);
  return {
    points_px: ground,
    ...(holes_px.length ? { holes_px } : {}),
    known: [{ x1, y1, x2, y2, distance_m }],
    ...given({ north_px_deg: form.north ?? undefined, pointing_px: pointing(form) }),
  };
}

/** Reads the measurements: the engine call they make, or what is wrong with which field. */
export function measuredBy(form: Measures): Measured {
  const errors: Errors = {};
  const done = <N extends AreaCallName>(name: N, args: Args<N>): Measured => ({
    errors,
    call: Object.keys(errors).length ? null : ({ name, args } as AreaCall),
  });
  switch (form.method) {
    case "shapes":
      return done("area.shapes", measuredShapes(form, errors));
    case "offsets": {
      const spacing_m = metresOf(form.spacing, "Spacing", "spacing", errors, "above 0");
      const offsets_m = measuredLines(form.offsets, "Width", "offsets", errors, "from 0");
      return done("area.offsets", { spacing_m, offsets_m, method: WIDTH_METHODS[form.rule] });
    }
    case "radii":
      return done("area.radii", { radii_m: measuredLines(form.radii, "Length", "radii", errors, "above 0") });
    case "gps":
      return done("area.gps", walkedArgs(form.gps, errors));
    case "trace":
      return done("area.trace", tracedArgs(form.trace, errors));
    case "outline":
      if (form.outline.points.length < LEAST_CORNERS)
        errors["outline"] = "Draw a shape first, then drag its corners.";
      return done("area.outline", outlineArgs(form.outline));
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
      ? "Area is missing. Enter a number such as 5,000."
      : read.message;
  return { errors, call: null };
}

/** The field the engine's refusal is about, with the unit it is set to; the ground as a whole where it is no one field. */
function refusedField(form: Measures, name: string): { field: string; unit?: string; label?: string } {
  const at = Number(/\[(\d+)\]/.exec(name)?.[1] ?? Number.NaN);
  const last = lastName(name);
  const part = form.parts[at];
  const size = part?.sizes[last];
  if (form.method === "shapes" && part && size) {
    const label = SHAPES[part.shape].sizes.find(([field]) => field === last)?.[1];
    return { field: `parts.${part.key}.${last}`, unit: size.unit, ...given({ label }) };
  }
  if (form.method === "shapes" && last === "length_error_share") return { field: "lengthError" };
  if (form.method === "offsets" && last === "spacing_m")
    return { field: "spacing", unit: form.spacing.unit, label: "Spacing" };
  if (form.method === "offsets" && form.offsets.amounts[at] !== undefined)
    return { field: `offsets.${at}`, unit: form.offsets.unit, label: `Width ${at + 1}` };
  if (form.method === "radii" && form.radii.amounts[at] !== undefined)
    return { field: `radii.${at}`, unit: form.radii.unit, label: `Length ${at + 1}` };
  if (form.method === "trace" && last === "distance_m")
    return { field: "trace.distance", unit: form.trace.distance.unit };
  return { field: "ground" };
}

/** The engine's refusal of a measurement, beside the field it is about and in that field's unit. */
export function refusalOf(
  form: Measures,
  error: EngineError,
  system: System,
): { field: string; says: string } {
  const { field, unit, label } = refusedField(form, error.name ?? "");
  const says = sayRefusal(error, system, unit);
  return { field, says: label ? `${label}: ${says}` : says };
}
