/**
 * Where things stand on a drawn dial. Drawing only: nothing here decides a setting.
 * Angles are in degrees clockwise from straight up; the dial's travel is 270 degrees with
 * the gap at the bottom.
 */

export interface DialScale {
  lowest: number;
  highest: number;
  step: number;
}

const TURN_FROM = -135;
const TURN = 270;
/** More clicks than this would run into each other on a phone. */
const MOST_TICKS = 72;

/** A dial can be drawn when its numbers run upward by a positive click. */
export function drawable(dial: DialScale): boolean {
  const { lowest, highest, step } = dial;
  return [lowest, highest, step].every(Number.isFinite) && highest > lowest && step > 0;
}

/** Angle of a setting; settings outside the dial stop at its ends. */
export function angleOf(dial: DialScale, at: number): number {
  const share = (at - dial.lowest) / (dial.highest - dial.lowest);
  return TURN_FROM + TURN * Math.min(1, Math.max(0, share));
}

/** Point on a circle about (cx, cy) at an angle clockwise from straight up. */
export function onCircle(cx: number, cy: number, radius: number, angle: number): [number, number] {
  const turn = ((angle - 90) * Math.PI) / 180;
  return [cx + radius * Math.cos(turn), cy + radius * Math.sin(turn)];
}

/** Whole clicks in the dial's travel. */
export function clicks(dial: DialScale): number {
  return Math.floor((dial.highest - dial.lowest) / dial.step + 1e-6);
}

/** A value brought to 12 significant digits, so that 0.1 + 0.2 is written 0.3. */
function tidy(value: number): number {
  return Number(value.toPrecision(12));
}

/** Settings with a tick: every click, or every so many when they would run together. */
export function tickSettings(dial: DialScale): number[] {
  const n = clicks(dial);
  const every = Math.ceil(n / MOST_TICKS);
  const settings: number[] = [];
  for (let k = 0; k <= n; k += every) settings.push(tidy(dial.lowest + k * dial.step));
  return settings;
}

/** Settings with a numeral beside them: at most nine, at round distances, the ends among them. */
export function numeralSettings(dial: DialScale): number[] {
  const span = dial.highest - dial.lowest;
  const rough = span / 8;
  const ten = 10 ** Math.floor(Math.log10(rough));
  const apart = [1, 2, 5, 10].map((k) => k * ten).find((gap) => gap >= rough) ?? rough;
  const inner: number[] = [];
  for (let at = Math.ceil(dial.lowest / apart) * apart; at <= dial.highest; at += apart) {
    const clear = Math.min(at - dial.lowest, dial.highest - at) >= apart * 0.6;
    if (clear) inner.push(tidy(at));
  }
  return [dial.lowest, ...inner, dial.highest];
}

/** A setting moved by whole clicks, kept on the dial. */
export function clicked(dial: DialScale, at: number, by: number): number {
  const now = Math.round((at - dial.lowest) / dial.step);
  const next = Math.min(clicks(dial), Math.max(0, now + by));
  return tidy(dial.lowest + next * dial.step);
}

/** Outline of a part of a ring about (c, c) between two angles. */
export function ringPath(c: number, outer: number, inner: number, from: number, to: number): string {
  const wide = to - from > 180 ? 1 : 0;
  const [x1, y1] = onCircle(c, c, outer, from);
  const [x2, y2] = onCircle(c, c, outer, to);
  const [x3, y3] = onCircle(c, c, inner, to);
  const [x4, y4] = onCircle(c, c, inner, from);
  return `M${x1} ${y1}A${outer} ${outer} 0 ${wide} 1 ${x2} ${y2}L${x3} ${y3}A${inner} ${inner} 0 ${wide} 0 ${x4} ${y4}Z`;
}

/** A line along the travel that grows from nothing to `widest`, as the gate opens. */
export function wedgePath(c: number, radius: number, widest: number): string {
  const steps = 45;
  const at = (k: number, inside: number) =>
    onCircle(c, c, radius - inside * widest * (k / steps), TURN_FROM + (TURN * k) / steps).join(" ");
  const along = Array.from({ length: steps + 1 }, (_, k) => k);
  return `M${along.map((k) => at(k, 0)).join("L")}L${[...along]
    .reverse()
    .map((k) => at(k, 1))
    .join("L")}Z`;
}

/** A range of settings as a band: half a click more to either side, so that one setting is a band too. */
export function widened(dial: DialScale, range: { low: number; high: number }): [number, number] {
  const low = Math.max(dial.lowest, Math.min(range.low, range.high) - dial.step / 2);
  const high = Math.min(dial.highest, Math.max(range.low, range.high) + dial.step / 2);
  return [low, high];
}
