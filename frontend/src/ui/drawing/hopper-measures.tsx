import { useId } from "preact/hooks";

export type HopperMeasure =
  | "top_length_m"
  | "top_width_m"
  | "bottom_length_m"
  | "bottom_width_m"
  | "height_m";

interface HopperMeasuresProps {
  /** The measure whose field has the focus. */
  focus?: HopperMeasure | undefined;
}

type Point = readonly [x: number, y: number];

/** Corners of a hopper seen from the front and a little above: front left, front right, back right, back left. */
const RIM: readonly Point[] = [
  [34, 62],
  [196, 62],
  [236, 26],
  [74, 26],
];
const FLOOR: readonly Point[] = [
  [92, 186],
  [150, 186],
  [168, 169],
  [110, 169],
];

interface Drawn {
  letter: string;
  from: Point;
  to: Point;
  /** Where the letter is written. */
  text: Point;
}

/** Each field's letter and where it is measured. */
const MEASURES: Record<HopperMeasure, Drawn> = {
  top_length_m: { letter: "A", from: [34, 76], to: [196, 76], text: [120, 103] },
  top_width_m: { letter: "B", from: [206, 68], to: [246, 32], text: [246, 70] },
  bottom_length_m: { letter: "C", from: [92, 200], to: [150, 200], text: [121, 228] },
  bottom_width_m: { letter: "D", from: [159, 192], to: [179, 173], text: [192, 200] },
  height_m: { letter: "E", from: [20, 62], to: [20, 186], text: [40, 148] },
};

const line = (points: readonly Point[]) => points.map(([x, y]) => `${x} ${y}`).join("L");

function Box() {
  const corners = RIM.map((corner, k) => `M${line([corner, FLOOR[k] ?? corner])}`);
  return (
    <g class="measure-box">
      <path class="measure-back" d={corners[3]} />
      <path
        class="measure-back"
        d={`M${line([FLOOR[2] ?? [0, 0], FLOOR[3] ?? [0, 0], FLOOR[0] ?? [0, 0]])}`}
      />
      <path d={`M${line(RIM)}Z`} />
      <path d={`${corners[0]}${corners[1]}${corners[2]}`} />
      <path d={`M${line([FLOOR[0] ?? [0, 0], FLOOR[1] ?? [0, 0], FLOOR[2] ?? [0, 0]])}`} />
    </g>
  );
}

/** A measure with a stroke across each end; heavy and in the signal colour while its field has the focus. */
function Measure({ drawn, lit }: { drawn: Drawn; lit: boolean }) {
  const { from, to, text, letter } = drawn;
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const across: Point = [(-(to[1] - from[1]) / long) * 6, ((to[0] - from[0]) / long) * 6];
  const end = ([x, y]: Point) => `M${x - across[0]} ${y - across[1]}L${x + across[0]} ${y + across[1]}`;
  return (
    <g class={lit ? "measure measure--lit" : "measure"}>
      <path d={`M${line([from, to])}${end(from)}${end(to)}`} />
      <text x={text[0]} y={text[1]} text-anchor="middle">
        {letter}
      </text>
    </g>
  );
}

/** The hopper with its five inside measures, each by its letter; not to scale, since most are not known yet. */
export function HopperMeasures({ focus }: HopperMeasuresProps) {
  const id = useId();
  const names = Object.keys(MEASURES) as HopperMeasure[];
  const at = focus ? `, at ${MEASURES[focus].letter}` : "";
  return (
    <svg class="drawing hopper-measures" viewBox="0 0 280 234" role="img" aria-labelledby={`t${id}`}>
      <title id={`t${id}`}>{`A hopper with its five inside measures A to E${at}`}</title>
      <Box />
      {names.map((name) => (
        <Measure key={name} drawn={MEASURES[name]} lit={name === focus} />
      ))}
    </svg>
  );
}
