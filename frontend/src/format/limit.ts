/**
 * What is allowed, in the unit a field stands in. Rounded towards what is allowed: each number named is itself accepted
 * when it is typed back.
 */
import { grouped } from "./figures";
import { inUnit, type Quantity, type Scaled, type System, type Unit, unit, unitOf } from "./units";

const FIGURES = 4;

/** How a stored value is written; `label` brings what joins it to the number. */
export interface Scale extends Scaled {
  label: string;
}

/** Units as fixtures/kinds/ and the engine write them, where the person chooses how they are said. */
const CHOSEN: Record<string, Quantity> = {
  m2: "area",
  kg: "mass",
  m: "length",
  mm: "height",
  m3: "volume",
  "m/s": "speed",
  "kg/m2": "rate",
  "kg N/m2": "nitrogen",
  "kg/m3": "density",
  C: "temperature",
  K: "degrees",
  "mg/kg": "soil",
};

/** Those that are the same everywhere. A share is stored from 0 to 1 and typed in percent. */
const FIXED: Record<string, Scale> = {
  "%": { factor: 1, label: "%" },
  share: { factor: 0.01, label: "%" },
  deg: { factor: 1, label: "°" },
  day: { factor: 1, label: " days" },
  year: { factor: 1, label: " years" },
  h: { factor: 1, label: " hours" },
  min: { factor: 1, label: " minutes" },
  s: { factor: 1, label: " seconds" },
  px: { factor: 1, label: " px" },
  byte: { factor: 1, label: " bytes" },
  bags: { factor: 1, label: " bags" },
};

const PLAIN: Scale = { factor: 1, label: "" };

/** What a stored unit measures, where it is written in units of the person's choosing. */
export function quantityIn(stored: string | undefined): Quantity | undefined {
  return stored ? CHOSEN[stored] : undefined;
}

/** How a stored unit is said: in the unit the field is set to (`key`), else in the person's own. */
export function scaleOf(stored: string | undefined, system: System, key?: string): Scale {
  const quantity = quantityIn(stored);
  if (!quantity) return (stored && FIXED[stored]) || PLAIN;
  const set = key ? unit(key) : undefined;
  return labelled(set?.quantity === quantity ? set : unitOf(quantity, system));
}

function labelled({ label, ...unit }: Unit): Scale {
  return { ...unit, label: `\u00a0${label}` };
}

/** The smallest (or largest) number of four figures that is still inside. */
function inside(si: number, scale: Scale, side: "low" | "high"): number {
  const exact = inUnit(si, scale);
  const step = exact === 0 ? 1 : 10 ** (Math.floor(Math.log10(Math.abs(exact))) - FIGURES + 1);
  const steps = side === "low" ? Math.ceil(exact / step - 1e-9) : Math.floor(exact / step + 1e-9);
  return Number((steps * step).toPrecision(FIGURES + 1));
}

/** "Allowed is 0 to 100%.", "Allowed is 5.382 ft² or more.": empty where nothing is limited. */
export function allowedIs(
  { low, high }: { low?: number | null | undefined; high?: number | null | undefined },
  scale: Scale,
  system: System,
): string {
  const say = (si: number, side: "low" | "high") => grouped(inside(si, scale, side), 12, system);
  const { label } = scale;
  const least = typeof low === "number" ? say(low, "low") : undefined;
  const most = typeof high === "number" ? say(high, "high") : undefined;
  if (least !== undefined && most !== undefined) return `Allowed is ${least} to ${most}${label}.`;
  if (least !== undefined) return `Allowed is ${least}${label} or more.`;
  return most === undefined ? "" : `Allowed is up to ${most}${label}.`;
}
