/** Hatching that tells passes, cut-outs and ranges apart without relying on colour. */

/** Angle of the hatch lines of a pass, in degrees: parallel passes lean, a third one crosses. */
const PASS_ANGLES = [45, 135, 0, 90] as const;
const PASS_GAPS = [7, 7, 6, 6] as const;
const PASS_WEIGHTS = [1.2, 1.2, 1.8, 1.8] as const;

/** Which of the four hatches a pass has; pass numbers start at 1 and go round. */
export function hatchOfPass(pass: number): { angle: number; gap: number; weight: number } {
  const n = (((Math.round(pass) - 1) % 4) + 4) % 4;
  return {
    angle: PASS_ANGLES[n] ?? 45,
    gap: PASS_GAPS[n] ?? 7,
    weight: PASS_WEIGHTS[n] ?? 1.2,
  };
}

interface StripHatchProps {
  /** Unique in the page: fill with `url(#id)`. */
  id: string;
  /** Pass number from 1; leave out for a plain lean. */
  pass?: number;
  /** Class of the lines, so that colour comes from the style sheet. */
  line?: string;
  angle?: number;
  gap?: number;
  weight?: number;
}

/** A `<pattern>` for the `<defs>` of a drawing. */
export function StripHatch({ id, pass = 1, line = "hatch-line", ...own }: StripHatchProps) {
  const { angle, gap, weight } = { ...hatchOfPass(pass), ...own };
  return (
    <pattern
      id={id}
      width={gap}
      height={gap}
      patternUnits="userSpaceOnUse"
      patternTransform={`rotate(${angle})`}
    >
      <line class={line} x1={gap / 2} y1={0} x2={gap / 2} y2={gap} stroke-width={weight} />
    </pattern>
  );
}

/** Loose granules: the fill of a hopper or a heap. */
export function GranuleFill({ id }: { id: string }) {
  const spots = [
    [3, 3, 1.5],
    [9, 5, 1.1],
    [5, 9.5, 1.3],
    [11, 11, 1.5],
    [0.8, 12, 1],
  ] as const;
  return (
    <pattern id={id} width="13" height="13" patternUnits="userSpaceOnUse">
      <rect class="granule-ground" width="13" height="13" />
      {spots.map(([x, y, r]) => (
        <circle key={`${x}`} class="granule" cx={x} cy={y} r={r} />
      ))}
    </pattern>
  );
}
