/** Every rounding of a figure a person sees. Stored SI in; text, number and unit out. */

import { unit as byKey, inUnit, type System, stored, type Unit, unitOf } from "./units";

/** A figure ready to draw. `text` is number and unit together. */
export interface Shown {
  text: string;
  number: string;
  unit: string;
}

const NARROW_SPACE = "\u202f";
/** Between a number and its unit: never broken over two lines. */
const JOIN = "\u00a0";

/** Decimals kept below each size; beyond the last, none. Trailing zeros are dropped. */
type Steps = readonly (readonly [below: number, decimals: number])[];
const ERROR: Steps = [[10, 1]];
const COARSE: Steps = [[100, 1]];
const MIDDLE: Steps = [
  [10, 2],
  [100, 1],
];

function decimalsFor(value: number, steps: Steps): number {
  const size = Math.abs(value);
  return steps.find(([below]) => size < below)?.[1] ?? 0;
}

/** As it is read, rounded half away from zero in decimals, not in what the machine keeps of them; undefined where it is not plain. */
function rounded(value: number, decimals: number): string | undefined {
  const plain = String(Math.abs(value));
  if (!/^[\d.]+$/.test(plain)) return undefined;
  const last = Math.round(Number(`${plain}e${decimals}`));
  return last < Number.MAX_SAFE_INTEGER ? Number(`${last}e-${decimals}`).toFixed(decimals) : undefined;
}

/** Intl's own, for what is not written plainly: to set it up takes a slow phone longer than all the numbers of a page. */
const byIntl = (value: number, decimals: number): string =>
  new Intl.NumberFormat("en-US", { maximumFractionDigits: decimals, minimumFractionDigits: decimals }).format(
    value,
  );

/** A number with thousands grouped: 5,000 (us), 5 000 with a narrow space (metric). */
export function grouped(value: number, decimals: number, system: System, fixed = false): string {
  const digits = rounded(value, decimals) ?? byIntl(Math.abs(value), decimals).replace(/,/g, "");
  const [whole = "", part = ""] = digits.split(".");
  const kept = fixed ? part : part.replace(/0+$/, "");
  const text =
    whole.replace(/\B(?=(?:\d{3})+$)/g, system === "us" ? "," : NARROW_SPACE) + (kept && `.${kept}`);
  return value < 0 && /[1-9]/.test(text) ? `-${text}` : text;
}

function shown(si: number, chosen: Unit, steps: Steps, system: System): Shown {
  const value = inUnit(si, chosen);
  const number = grouped(value, decimalsFor(value, steps), system);
  return { text: number + JOIN + chosen.label, number, unit: chosen.label };
}

function unitNamed(key: string): Unit {
  const found = byKey(key);
  if (found === undefined) throw new Error(`fixtures/units.json has no unit ${key}`);
  return found;
}

/** Square metres as ft² or m². */
export function area(m2: number, system: System): Shown {
  return shown(m2, unitOf("area", system), COARSE, system);
}

/** How far off an area may be: whole from 10 up, for nobody knows an error to a tenth. */
export function areaError(sd_m2: number, system: System): Shown {
  return shown(sd_m2, unitOf("area", system), ERROR, system);
}

/** An area that is only roughly known: "5,800 and 7,100 ft²", rounded outwards to a tenth of the gap or so. */
export function areaBetween(low_m2: number, high_m2: number, system: System): Shown {
  const chosen = unitOf("area", system);
  const [low, high] = [Math.max(0, low_m2) / chosen.factor, high_m2 / chosen.factor];
  const step = 10 ** Math.floor(Math.log10(Math.max(high - low, 1)) - 1);
  const least = Math.floor(low / step + 1e-9) * step;
  const most = Math.ceil(high / step - 1e-9) * step;
  const decimals = step < 1 ? 1 : 0;
  const number = `${grouped(least, decimals, system)} and ${grouped(most, decimals, system)}`;
  return { text: number + JOIN + chosen.label, number, unit: chosen.label };
}

/** Kilograms as lb (below one, oz) or kg (below one, g). */
export function mass(kg: number, system: System): Shown {
  const whole = unitOf("mass", system);
  const small = kg !== 0 && Math.abs(kg) < whole.factor * 0.9995;
  if (!small) return shown(kg, whole, MIDDLE, system);
  return shown(kg, unitNamed(system === "us" ? "oz" : "g"), COARSE, system);
}

/** Product per area as lb/1,000 ft² or kg/100 m². */
export function rate(kg_m2: number, system: System): Shown {
  return shown(kg_m2, unitOf("rate", system), MIDDLE, system);
}

/** Nitrogen per area as lb N/1,000 ft² or g N/m². */
export function nitrogen(kg_m2: number, system: System): Shown {
  return shown(kg_m2, unitOf("nitrogen", system), MIDDLE, system);
}

/** Metres as ft or m. */
export function length(m: number, system: System): Shown {
  return shown(m, unitOf("length", system), system === "us" ? COARSE : MIDDLE, system);
}

/** The largest length of 1, 2, 5, 10 … of the reader's own unit that is no longer than `most_m`: for a scale bar. */
export function roundLength(most_m: number, system: System): { length_m: number; text: string } {
  const { factor } = unitOf("length", system);
  const most = most_m / factor + 1e-9;
  const ten = 10 ** Math.floor(Math.log10(most));
  const amount = [5, 2, 1].map((k) => k * ten).find((one) => one <= most) ?? ten;
  const length_m = amount * factor;
  return { length_m, text: length(length_m, system).text };
}

/** Height of cut, millimetres as in or mm. */
export function height(mm: number, system: System): Shown {
  return shown(mm, unitOf("height", system), system === "us" ? MIDDLE : [], system);
}

/** Depth in the soil, millimetres as in (to a half: nobody pushes a probe in nearer) or mm. */
export function depth(mm: number, system: System): Shown {
  const chosen = unitOf("height", system);
  const value = inUnit(mm, chosen);
  const number = grouped(system === "us" ? Math.round(value * 2) / 2 : Math.round(value), 1, system);
  return { text: number + JOIN + chosen.label, number, unit: chosen.label };
}

/** Degrees Celsius as °F (whole) or °C (to a half: a thermometer in the ground tells no more). */
export function temperature(c: number, system: System): Shown {
  const chosen = unitOf("temperature", system);
  const value = inUnit(c, chosen);
  const number = grouped(system === "us" ? Math.round(value) : Math.round(value * 2) / 2, 1, system);
  return { text: number + JOIN + chosen.label, number, unit: chosen.label };
}

/** Round temperatures of the reader's own unit from `low_c` to `high_c`, about `about` of them: for a scale. */
export function temperatureSteps(
  low_c: number,
  high_c: number,
  system: System,
  about = 5,
): { c: number; text: string }[] {
  const chosen = unitOf("temperature", system);
  const [low, high] = [inUnit(low_c, chosen), inUnit(high_c, chosen)];
  const step = [1, 2, 5, 10, 20].find((one) => one * about >= high - low) ?? 50;
  const steps: { c: number; text: string }[] = [];
  for (let at = Math.ceil(low / step) * step + 0; at <= high; at += step)
    steps.push({ c: stored(at, chosen), text: grouped(at, 0, system) });
  return steps;
}

/** So many degrees, as °F or °C. */
export function degrees(k: number, system: System): Shown {
  return shown(k, unitOf("degrees", system), COARSE, system);
}

/** Degrees added up over days, as °F days or °C days. */
export function degreeDays(k_days: number, system: System): Shown {
  return shown(k_days, unitOf("degree_days", system), COARSE, system);
}

/** Depth of rain or water, millimetres as in or mm. */
export function rain(mm: number, system: System): Shown {
  return shown(mm, unitOf("height", system), system === "us" ? MIDDLE : ERROR, system);
}

/** Metres per second as mph or km/h. */
export function speed(m_s: number, system: System): Shown {
  return shown(m_s, unitOf("speed", system), COARSE, system);
}

/** Bulk density, kg/m³ as lb/ft³ or kg/m³. */
export function density(kg_m3: number, system: System): Shown {
  return shown(kg_m3, unitOf("density", system), system === "us" ? COARSE : [], system);
}

/** What a lab found in the soil, mg/kg as ppm or mg/kg: no nearer than to one. */
export function soilContent(mg_kg: number, system: System): Shown {
  return shown(mg_kg, unitOf("soil", system), [[10, 1]], system);
}

/** A price: two decimals, no currency, for the app does not know it. */
export function money(amount: number): Shown {
  const number = grouped(amount, 2, "us", true);
  return { text: number, number, unit: "" };
}

/** What nitrogen costs: money for a lb or a kg of it. */
export function nitrogenPrice(per_kg: number, system: System): Shown {
  const { factor, label } = unitOf("mass", system);
  const { number } = money(per_kg * factor);
  return { text: `${number} per ${label} N`, number, unit: `per ${label} N` };
}

/** A share (0 to 1) in percent: whole from 10 up, one decimal below. */
export function percent(share: number): Shown {
  const value = share * 100;
  const number = grouped(value, decimalsFor(value, [[10, 1]]), "us");
  return { text: `${number}%`, number, unit: "%" };
}

/** A dial number with as many decimals as one click has: 12.5 on a dial of half steps. */
export function dial(value: number, step: number): Shown {
  const decimals = Math.min(3, (/\.(\d+)/.exec(String(step))?.[1] ?? "").length);
  const number = grouped(value, decimals, "us", true).replace(/,/g, "");
  return { text: number, number, unit: "" };
}

/** Hours of use: a tenth below ten. */
export function hours(h: number): Shown {
  const number = grouped(h, decimalsFor(h, [[10, 1]]), "us");
  return { text: `${number}${JOIN}h`, number, unit: "h" };
}

/** Whole things counted: 2 bags, 1 bag. */
export function count(n: number, one: string, many = `${one}s`): Shown {
  const number = grouped(n, 0, "us");
  const word = number === "1" ? one : many;
  return { text: `${number} ${word}`, number, unit: word };
}

/** Two figures as a range: "3.2–4.1 lb"; both with their unit when the units differ, save for nothing. */
export function range(low: Shown, high: Shown): Shown {
  if (low.text === high.text) return low;
  if (low.number === "0" && low.unit !== high.unit)
    return { text: `0–${high.text}`, number: `0–${high.number}`, unit: high.unit };
  if (low.unit !== high.unit)
    return { text: `${low.text} to ${high.text}`, number: low.number, unit: low.unit };
  const number = `${low.number}–${high.number}`;
  const tail = high.text.slice(high.number.length);
  return { text: number + tail, number, unit: high.unit };
}
