/** An outline drawn or mended by hand: corners in metres, x to the right and y up. Its area is the engine's to say. */
import type { Args } from "../../../platform/engine/types";
import { cornersIn, MOST_CORNERS } from "../../../records/kinds";

export type Corner = [x_m: number, y_m: number];

export interface Circle {
  x_m: number;
  y_m: number;
  radius_m: number;
}

/** A zone's outline as the record keeps it. */
export interface ZoneOutline {
  points_m: Corner[];
  holes_m: Corner[][];
  circles_m: Circle[];
  /** Bearing of +y; null where north is not known. */
  north_deg: number | null;
  /** Drawn by hand for a zone that was measured another way: measuring anew leaves it alone. */
  drawn?: true;
}

export interface OutlineForm {
  points: Corner[];
  /** Obstacles with corners: beds, sheds, paths. */
  holes: Corner[][];
  /** Round obstacles: trees, wells. */
  circles: Circle[];
  /** Where north points on the drawing, degrees clockwise from up; null where it is not known. */
  north: number | null;
  /** Likely error carried over from the walk or the plan the outline came from. */
  sd_m2?: number | null;
  /** Its edges at the water: 0 from the first corner to the second. They hold for an outline of so many corners. */
  water?: AtWater;
  /** The outline on record was drawn by hand for a zone measured another way. */
  drawn?: true;
}

export interface AtWater {
  corners: number;
  edges: number[];
}

/**
 * What can be taken hold of: a corner of a ring (0 the ground, then the obstacles), an obstacle as a whole, or a
 * circle's middle or edge.
 */
export type Handle =
  | { kind: "corner"; ring: number; at: number }
  | { kind: "whole"; ring: number }
  | { kind: "middle" | "edge"; circle: number };

export const NO_OUTLINE: OutlineForm = { points: [], holes: [], circles: [], north: null };
/** Corners are kept to the centimetre: finer than any hand. */
const CM = 100;
const LEAST_CORNERS = 3;
const LEAST_RADIUS_M = 0.1;
const TURN = 360;

const cm = (metres: number): number => Math.round(metres * CM) / CM;

/** A rectangle to begin with, its lower left corner at the origin. */
export function rectangle(length_m: number, width_m: number): OutlineForm {
  const [x, y] = [cm(length_m), cm(width_m)];
  return {
    ...NO_OUTLINE,
    points: [
      [0, 0],
      [x, 0],
      [x, y],
      [0, y],
    ],
  };
}

/** The corners as drawn, from what the record keeps. */
export function formOfOutline(outline: Partial<ZoneOutline> & { points_m: Corner[] }): OutlineForm {
  const bearing = outline.north_deg;
  return {
    points: outline.points_m.map(([x, y]) => [cm(x), cm(y)]),
    holes: (outline.holes_m ?? []).map((hole) => hole.map(([x, y]) => [cm(x), cm(y)])),
    circles: outline.circles_m ?? [],
    north: typeof bearing === "number" ? turned(-bearing) : null,
  };
}

/** A turn between 0 and 360 degrees. */
export function turned(degrees: number): number {
  return ((degrees % TURN) + TURN) % TURN;
}

/** The bearing of +y when north points that way on the drawing. */
export function bearingOfUp(north: number | null): number | null {
  return north === null ? null : turned(-north);
}

/** What the record keeps of an outline drawn by hand. */
export function outlineRecord({ points, holes, circles, north }: OutlineForm): ZoneOutline {
  return { points_m: points, holes_m: holes, circles_m: circles, north_deg: bearingOfUp(north) };
}

export function outlineArgs(form: OutlineForm): Args<"area.outline"> {
  return {
    points_m: form.points,
    ...(form.holes.length ? { holes_m: form.holes } : {}),
    ...(form.circles.length ? { circles_m: form.circles } : {}),
  };
}

/** Whether so many more corners fit in: the book takes 400, obstacles counted. */
export const hasRoom = ({ points, holes }: OutlineForm, more = 1): boolean =>
  cornersIn(points, holes) + more <= MOST_CORNERS;

export const FULL = `This outline has ${MOST_CORNERS} corners in all, the most allowed. Remove one to add another.`;

const ringsOf = (form: OutlineForm): Corner[][] => [form.points, ...form.holes];

function withRing(form: OutlineForm, ring: number, corners: Corner[]): OutlineForm {
  if (ring === 0) return { ...form, points: corners };
  return { ...form, holes: form.holes.map((hole, k) => (k === ring - 1 ? corners : hole)) };
}

/** Everything that can be taken hold of, in the order it is walked by the keyboard. */
export function handlesOf(form: OutlineForm): Handle[] {
  const corners = ringsOf(form).flatMap((corners, ring): Handle[] => [
    ...(ring > 0 ? [{ kind: "whole" as const, ring }] : []),
    ...corners.map((_, at): Handle => ({ kind: "corner", ring, at })),
  ]);
  const round = form.circles.flatMap((_, circle): Handle[] => [
    { kind: "middle", circle },
    { kind: "edge", circle },
  ]);
  return [...corners, ...round];
}

export function handleKey(handle: Handle): string {
  if (handle.kind === "corner") return `${handle.ring}.${handle.at}`;
  return handle.kind === "whole" ? `whole.${handle.ring}` : `${handle.kind}.${handle.circle}`;
}

/** The middle of the box round a ring: where it is taken hold of as a whole. */
function middleOf(corners: Corner[]): Corner {
  const middle = (at: 0 | 1): number => {
    const all = corners.map((corner) => corner[at]);
    return (Math.min(...all) + Math.max(...all)) / 2;
  };
  return [middle(0), middle(1)];
}

/** Where a handle lies; undefined once it is gone. */
export function placeOf(form: OutlineForm, handle: Handle): Corner | undefined {
  if (handle.kind === "corner") return ringsOf(form)[handle.ring]?.[handle.at];
  if (handle.kind === "whole") {
    const corners = ringsOf(form)[handle.ring];
    return corners && middleOf(corners);
  }
  const circle = form.circles[handle.circle];
  if (!circle) return undefined;
  return [circle.x_m + (handle.kind === "edge" ? circle.radius_m : 0), circle.y_m];
}

/** "Corner 3 of 6", "Round obstacle 1, edge". */
export function sayHandle(form: OutlineForm, handle: Handle): string {
  if (handle.kind === "whole") return `Obstacle ${handle.ring}, all of it`;
  if (handle.kind !== "corner") return `Round obstacle ${handle.circle + 1}, ${handle.kind}`;
  const of = ringsOf(form)[handle.ring]?.length ?? 0;
  const corner = `orner ${handle.at + 1} of ${of}`;
  return handle.ring === 0 ? `C${corner}` : `Obstacle ${handle.ring}, c${corner}`;
}

/** The edges at the water of an outline of so many corners; none where they were marked on another one. */
export function edgesAtWater(water: AtWater | undefined, corners: number): number[] {
  return water && water.corners === corners ? water.edges : [];
}

/** The edges with some of them marked or not. */
export function marked(
  water: AtWater | undefined,
  corners: number,
  edges: readonly number[],
  on: boolean,
): AtWater {
  const others = edgesAtWater(water, corners).filter((edge) => !edges.includes(edge));
  return { corners, edges: [...others, ...(on ? edges : [])].sort((a, b) => a - b) };
}

/** The marks once the edge after corner `at` is cut in two: both halves lie where it lay. */
function cutAt({ corners, edges }: AtWater, at: number): AtWater {
  const after = edges.flatMap((edge) => (edge < at ? [edge] : edge === at ? [at, at + 1] : [edge + 1]));
  return { corners: corners + 1, edges: after };
}

/** The marks once corner `at` is gone: its two edges are one, at the water if either was. */
function joinedAt({ corners, edges }: AtWater, at: number): AtWater {
  const before = (at + corners - 1) % corners;
  const after = edges
    .map((edge) => (edge === at ? before : edge))
    .map((edge) => (edge > at ? edge - 1 : edge));
  return { corners: corners - 1, edges: [...new Set(after)].sort((a, b) => a - b) };
}

const watered = (form: OutlineForm, water: AtWater | undefined): OutlineForm =>
  water ? { ...form, water } : form;

/** The outline with one handle moved; a circle's edge sets its radius. */
export function moved(form: OutlineForm, handle: Handle, [x, y]: Corner): OutlineForm {
  if (handle.kind === "corner") {
    const ring = ringsOf(form)[handle.ring] ?? [];
    const corners = ring.map((corner, at): Corner => (at === handle.at ? [cm(x), cm(y)] : corner));
    return withRing(form, handle.ring, corners);
  }
  if (handle.kind === "whole") {
    const ring = ringsOf(form)[handle.ring] ?? [];
    const [mx, my] = middleOf(ring);
    return withRing(
      form,
      handle.ring,
      ring.map(([cx, cy]): Corner => [cm(cx + x - mx), cm(cy + y - my)]),
    );
  }
  const circles = form.circles.map((circle, k) => {
    if (k !== handle.circle) return circle;
    if (handle.kind === "middle") return { ...circle, x_m: cm(x), y_m: cm(y) };
    const radius_m = Math.max(LEAST_RADIUS_M, cm(Math.hypot(x - circle.x_m, y - circle.y_m)));
    return { ...circle, radius_m };
  });
  return { ...form, circles };
}

/** A corner added half way along the edge that follows corner `at` of a ring; none where no more are taken. */
export function withCorner(form: OutlineForm, ring: number, at: number): OutlineForm {
  if (!hasRoom(form)) return form;
  const corners = ringsOf(form)[ring] ?? [];
  const [from, to] = [corners[at], corners[(at + 1) % corners.length]];
  if (!from || !to) return form;
  const middle: Corner = [cm((from[0] + to[0]) / 2), cm((from[1] + to[1]) / 2)];
  const water = ring === 0 && form.water ? cutAt(form.water, at) : form.water;
  return watered(
    withRing(form, ring, [...corners.slice(0, at + 1), middle, ...corners.slice(at + 1)]),
    water,
  );
}

/** Whether taking a handle away leaves an outline: the ground itself keeps three corners. */
export function removable(form: OutlineForm, handle: Handle): boolean {
  return handle.kind !== "corner" || handle.ring > 0 || form.points.length > LEAST_CORNERS;
}

function withoutRing(form: OutlineForm, ring: number): OutlineForm {
  return { ...form, holes: form.holes.filter((_, k) => k !== ring - 1) };
}

/** Without a corner, or without the obstacle where fewer than three corners would be left of it. */
export function without(form: OutlineForm, handle: Handle): OutlineForm {
  if (!removable(form, handle)) return form;
  if (handle.kind === "whole") return withoutRing(form, handle.ring);
  if (handle.kind !== "corner")
    return { ...form, circles: form.circles.filter((_, k) => k !== handle.circle) };
  const corners = ringsOf(form)[handle.ring] ?? [];
  if (handle.ring > 0 && corners.length <= LEAST_CORNERS) return withoutRing(form, handle.ring);
  const water = handle.ring === 0 && form.water ? joinedAt(form.water, handle.at) : form.water;
  const left = corners.filter((_, at) => at !== handle.at);
  return watered(withRing(form, handle.ring, left), water);
}

/** The corners of a new obstacle. */
export const OBSTACLE_CORNERS = 4;

/** An obstacle of four corners about a place, a handle of it first; none where so many are not taken. */
export function withObstacle(form: OutlineForm, [x, y]: Corner, half_m: number): OutlineForm {
  if (!hasRoom(form, OBSTACLE_CORNERS)) return form;
  const far = cm(half_m);
  const hole: Corner[] = [
    [cm(x - far), cm(y - far)],
    [cm(x + far), cm(y - far)],
    [cm(x + far), cm(y + far)],
    [cm(x - far), cm(y + far)],
  ];
  return { ...form, holes: [...form.holes, hole] };
}

export function withCircle(form: OutlineForm, [x, y]: Corner, radius_m: number): OutlineForm {
  const circle = { x_m: cm(x), y_m: cm(y), radius_m: Math.max(LEAST_RADIUS_M, cm(radius_m)) };
  return { ...form, circles: [...form.circles, circle] };
}

/** Whether what is on record is an outline that can be drawn. */
export function isOutline(value: any): value is { points_m: Corner[] } & Partial<ZoneOutline> {
  return Array.isArray(value?.points_m) && value.points_m.length >= LEAST_CORNERS;
}

/** How far a point lies from the line through two others. */
function offLine([x, y]: Corner, [ax, ay]: Corner, [bx, by]: Corner): number {
  const long = Math.hypot(bx - ax, by - ay);
  if (long === 0) return Math.hypot(x - ax, y - ay);
  return Math.abs((bx - ax) * (ay - y) - (ax - x) * (by - ay)) / long;
}

/** The corners that matter: those that lie farther than `within_m` from the line of their neighbours. */
function bends(line: Corner[], within_m: number): Corner[] {
  const [first, last] = [line[0], line.at(-1)];
  if (!first || !last || line.length < 3) return line;
  const far = line.map((corner) => offLine(corner, first, last));
  const most = Math.max(...far);
  if (most <= within_m) return [first, last];
  const at = far.indexOf(most);
  return [...bends(line.slice(0, at + 1), within_m).slice(0, -1), ...bends(line.slice(at), within_m)];
}

/** A walked ring with few enough corners to mend by hand. */
export function fewer(points: Corner[], within_m: number): Corner[] {
  const first = points[0];
  if (!first || points.length <= LEAST_CORNERS) return points;
  const apart = points.map(([x, y]) => Math.hypot(x - first[0], y - first[1]));
  const opposite = apart.indexOf(Math.max(...apart));
  const out = bends(points.slice(0, opposite + 1), within_m);
  const back = bends([...points.slice(opposite), first], within_m);
  const ring = [...out.slice(0, -1), ...back.slice(0, -1)];
  return ring.length >= LEAST_CORNERS ? ring : points;
}

/** Finer than anybody walks. */
const FINEST_M = 0.02;

/** A walked ring with no more corners than the book takes: those go first that bend least. */
export function atMost(points: Corner[]): Corner[] {
  let [ring, within_m] = [points, FINEST_M];
  while (ring.length > MOST_CORNERS) {
    ring = fewer(points, within_m);
    within_m *= 2;
  }
  return ring;
}
