/** Scales and round steps of the small charts. Drawing only. */

export interface Frame {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

export interface Tick {
  at: number;
  text: string;
}

/** Where a value stands on paper. */
export function scaled(low: number, high: number, from: number, to: number): (value: number) => number {
  const span = high - low || 1;
  return (value) => from + ((value - low) / span) * (to - from);
}

/**
 * Round steps from 0 up to `most`, about `about` of them: 1, 2 or 5 times a power of ten of the reader's own unit, of which
 * one is `factor` of the value's.
 */
export function roundSteps(most: number, factor = 1, about = 4): number[] {
  const rough = most / factor / about;
  if (!(rough > 0) || !Number.isFinite(rough)) return [0];
  const ten = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5].map((k) => k * ten).find((one) => one >= rough * 0.999) ?? 10 * ten) * factor;
  const steps: number[] = [];
  for (let k = 0; k * step <= most * 1.0001; k += 1) steps.push(Number((k * step).toPrecision(12)));
  return steps;
}

/** A path through points on paper. */
export function through(points: readonly (readonly [x: number, y: number])[]): string {
  return `M${points.map(([x, y]) => `${x.toFixed(2)} ${y.toFixed(2)}`).join("L")}`;
}
