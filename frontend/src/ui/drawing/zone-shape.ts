/**
 * Outlines of measured ground for drawing, in metres. Areas are never worked out here:
 * that is the engine's (`area.*`). y runs downward, as on paper.
 */

export interface ShapePart {
  shape: string;
  /** False for ground that is cut out. */
  add?: boolean;
  length_m?: number;
  width_m?: number;
  base_m?: number;
  height_m?: number;
  a_m?: number;
  b_m?: number;
  c_m?: number;
  radius_m?: number;
  side_a_m?: number;
  side_b_m?: number;
}

export type Point = [number, number];

export interface Outline {
  points: Point[];
  cut: boolean;
}

/** An outline as a zone's record keeps it: metres, y up. */
export interface Ground {
  points_m: Point[];
  holes_m?: Point[][];
  circles_m?: { x_m: number; y_m: number; radius_m: number }[];
  /** Bearing of +y; null where north is not known. */
  north_deg?: number | null;
}

const ROUND_STEPS = 48;
/** Space between parts drawn side by side, as a share of the widest. */
const GAP_SHARE = 0.08;

function ellipse(long: number, wide: number): Point[] {
  return Array.from({ length: ROUND_STEPS }, (_, k) => {
    const turn = (2 * Math.PI * k) / ROUND_STEPS;
    return [(long / 2) * (1 + Math.cos(turn)), (wide / 2) * (1 + Math.sin(turn))] as Point;
  });
}

/** Corners of a triangle laid on side `a`; nothing when the sides do not close. */
function threeSides(a: number, b: number, c: number): Point[] {
  const x = (a * a + b * b - c * c) / (2 * a);
  const high = b * b - x * x;
  if (!(high > 0)) return [];
  const left = Math.min(0, x);
  const tall = Math.sqrt(high);
  return [
    [-left, tall],
    [a - left, tall],
    [x - left, 0],
  ];
}

function triangle(part: ShapePart): Point[] {
  const { base_m: base, height_m: height, a_m: a, b_m: b, c_m: c } = part;
  if (base && height)
    return [
      [0, height],
      [base, height],
      [base / 2, 0],
    ];
  return a && b && c ? threeSides(a, b, c) : [];
}

function trapezoid(a: number, b: number, height: number): Point[] {
  const widest = Math.max(a, b);
  return [
    [(widest - a) / 2, height],
    [(widest + a) / 2, height],
    [(widest + b) / 2, 0],
    [(widest - b) / 2, 0],
  ];
}

function rectangle(long: number, wide: number): Point[] {
  return [
    [0, 0],
    [long, 0],
    [long, wide],
    [0, wide],
  ];
}

/** One part's outline from its own corner; empty while its measures are incomplete. */
export function partOutline(part: ShapePart): Point[] {
  const { length_m: long = 0, width_m: wide = 0, radius_m: radius = 0, height_m: height = 0 } = part;
  if (part.shape === "rectangle" && long > 0 && wide > 0) return rectangle(long, wide);
  if (part.shape === "ellipse" && long > 0 && wide > 0) return ellipse(long, wide);
  if (part.shape === "circle" && radius > 0) return ellipse(2 * radius, 2 * radius);
  if (part.shape === "triangle") return triangle(part);
  const { side_a_m: a = 0, side_b_m: b = 0 } = part;
  if (part.shape === "trapezoid" && a + b > 0 && height > 0) return trapezoid(a, b, height);
  return [];
}

const widthOf = (points: Point[]) => Math.max(0, ...points.map(([x]) => x));
const heightOf = (points: Point[]) => Math.max(0, ...points.map(([, y]) => y));

/** All parts on one line at one scale: where they lie in the yard was not measured. */
export function partsOutlines(parts: ShapePart[]): Outline[] {
  const drawn = parts
    .map((part) => ({ points: partOutline(part), cut: part.add === false }))
    .filter((outline) => outline.points.length > 0);
  const widest = Math.max(0, ...drawn.map((outline) => widthOf(outline.points)));
  const tallest = Math.max(0, ...drawn.map((outline) => heightOf(outline.points)));
  let along = 0;
  return drawn.map((outline) => {
    const down = tallest - heightOf(outline.points);
    const points = outline.points.map(([x, y]) => [x + along, y + down] as Point);
    along += widthOf(outline.points) + widest * GAP_SHARE;
    return { points, cut: outline.cut };
  });
}

/** Ground measured by offsets square to a straight base line; each in the middle of its strip where they are summed. */
export function offsetsOutline(spacing_m: number, offsets_m: number[], method?: string): Outline[] {
  if (!(spacing_m > 0) || offsets_m.length < 2) return [];
  const deepest = Math.max(...offsets_m);
  if (!(deepest > 0)) return [];
  const [aside, count] = method === "sum" ? [0.5, offsets_m.length] : [0, offsets_m.length - 1];
  const tops = offsets_m.map((offset, k) => [(k + aside) * spacing_m, deepest - offset] as Point);
  const [first = deepest, last = deepest] = [tops[0]?.[1], tops.at(-1)?.[1]];
  const span = count * spacing_m;
  const edge: Point[] = aside ? [[0, first], ...tops, [span, last]] : tops;
  const base: Point[] = [
    [span, deepest],
    [0, deepest],
  ];
  return [{ points: [...edge, ...base], cut: false }];
}

/** Ground measured by radii at equal angles from one inner point. */
export function radiiOutline(radii_m: number[]): Outline[] {
  if (radii_m.length < 3 || !radii_m.every((radius) => radius > 0)) return [];
  const raw = radii_m.map((radius, k) => {
    const turn = (2 * Math.PI * k) / radii_m.length - Math.PI / 2;
    return [radius * Math.cos(turn), radius * Math.sin(turn)] as Point;
  });
  return [{ points: fromCorner(raw), cut: false }];
}

function round({ x_m, y_m, radius_m }: { x_m: number; y_m: number; radius_m: number }): Point[] {
  return ellipse(2 * radius_m, 2 * radius_m).map(([x, y]) => [x + x_m - radius_m, y + y_m - radius_m]);
}

/** A zone's outline with everything cut out of it in its place; y turned to run down, as on paper. */
export function groundOutlines({ points_m, holes_m = [], circles_m = [] }: Ground): Outline[] {
  const left = Math.min(...points_m.map(([x]) => x));
  const top = Math.max(...points_m.map(([, y]) => y));
  const onPaper = (points: Point[], cut: boolean): Outline => ({
    points: points.map(([x, y]) => [x - left, top - y]),
    cut,
  });
  return [
    onPaper(points_m, false),
    ...holes_m.map((hole) => onPaper(hole, true)),
    ...circles_m.map((circle) => onPaper(round(circle), true)),
  ];
}

/** Points moved so that the smallest x and y are 0. */
export function fromCorner(points: Point[]): Point[] {
  const left = Math.min(...points.map(([x]) => x));
  const top = Math.min(...points.map(([, y]) => y));
  return points.map(([x, y]) => [x - left, y - top]);
}

/** Width and height of everything drawn, in metres. */
export function extent(outlines: Outline[]): { wide: number; tall: number } {
  const all = outlines.flatMap((outline) => outline.points);
  return { wide: widthOf(all), tall: heightOf(all) };
}
