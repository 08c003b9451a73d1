/**
 * Where the strips of a job lie on the drawing. Drawing only: lengths, areas and the order of the
 * strips are the engine's (`swath.tour`). The ground's y runs up, the paper's down.
 */
import type { Point } from "../../../ui/drawing/zone-shape";

/** A zone's outline as the book keeps it, in metres. */
export interface PlanOutline {
  points_m: Point[];
  holes_m?: Point[][] | null;
  circles_m?: { x_m: number; y_m: number; radius_m: number }[] | null;
  /** Bearing of +y, degrees clockwise from north; null where nobody said. */
  north_deg?: number | null;
}

/** A row of `swath.tour`: one header strip, one strip, or a zone without an outline as a whole. */
export interface PlanRow {
  zone_id: string;
  kind: "header" | "strip" | "whole";
  number: number;
  points_m: Point[] | null;
  length_m: number | null;
}

/** How the ground lies on the paper: one scale, one place, turned a quarter where that draws it larger. */
export interface Frame {
  scale: number;
  turned: boolean;
  wide: number;
  high: number;
  place: (at: Point) => Point;
}

export interface Room {
  wide: number;
  high: number;
  margin: number;
}

/** Turned only for a gain worth the turn of the head. */
const WORTH_TURNING = 1.3;

const turnedPoint = ([x, y]: Point): Point => [y, -x];

function bounds(points: readonly Point[]): { left: number; top: number; wide: number; high: number } {
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const [x, y] of points) {
    left = Math.min(left, x);
    right = Math.max(right, x);
    top = Math.min(top, -y);
    bottom = Math.max(bottom, -y);
  }
  return { left, top, wide: right - left, high: bottom - top };
}

/** The frame of an outline; null for points that enclose nothing. */
export function frameOf(points: readonly Point[], room: Room): Frame | null {
  if (points.length < 3) return null;
  const fitted = (on: readonly Point[]) => {
    const box = bounds(on);
    const scale = Math.min(
      (room.wide - 2 * room.margin) / box.wide,
      (room.high - 2 * room.margin) / box.high,
    );
    return { box, scale };
  };
  const upright = fitted(points);
  const across = fitted(points.map(turnedPoint));
  if (!(upright.box.wide > 0) || !(upright.box.high > 0)) return null;
  const turned = across.scale > upright.scale * WORTH_TURNING;
  const { box, scale } = turned ? across : upright;
  const left = (room.wide - box.wide * scale) / 2 - box.left * scale;
  const top = room.margin - box.top * scale;
  return {
    scale,
    turned,
    wide: room.wide,
    high: box.high * scale + 2 * room.margin,
    place: (at) => {
      const [x, y] = turned ? turnedPoint(at) : at;
      return [left + x * scale, top - y * scale];
    },
  };
}

const short = (n: number) => Math.round(n * 10) / 10;

/** An open line, or a closed ring. */
export function lineOf(points: readonly Point[], place: Frame["place"], closed = false): string {
  const drawn = points.map((at) => place(at).map(short).join(" "));
  return `M${drawn.join("L")}${closed ? "Z" : ""}`;
}

/** The ground with its obstacles as one path, filled by the even-odd rule. */
export function groundPath(outline: PlanOutline, { place, scale }: Frame): string {
  const rings = [outline.points_m, ...(outline.holes_m ?? [])].map((ring) => lineOf(ring, place, true));
  return [...rings, ...circlePaths(outline, place, scale)].join("");
}

/** The obstacles alone. */
export function holesPath(outline: PlanOutline, { place, scale }: Frame): string {
  const holes = (outline.holes_m ?? []).map((ring) => lineOf(ring, place, true));
  return [...holes, ...circlePaths(outline, place, scale)].join("");
}

function circlePaths(outline: PlanOutline, place: Frame["place"], scale: number): string[] {
  return (outline.circles_m ?? []).map(({ x_m, y_m, radius_m }) => {
    const [x, y] = place([x_m, y_m]).map(short) as Point;
    const r = short(radius_m * scale);
    return `M${short(x - r)} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`;
  });
}

export interface Along {
  at: Point;
  /** Direction of walking on the paper, degrees clockwise from straight up. */
  angle: number;
}

/** The place a share of the way along a drawn line, and which way it runs there. */
export function along(points: readonly Point[], share: number): Along | null {
  const steps = points.slice(1).map((to, k) => {
    const from = points[k] as Point;
    return { from, to, long: Math.hypot(to[0] - from[0], to[1] - from[1]) };
  });
  let left = share * steps.reduce((sum, { long }) => sum + long, 0);
  for (const { from, to, long } of steps) {
    if (long > 0 && left <= long) {
      const part = left / long;
      const angle = (Math.atan2(to[0] - from[0], from[1] - to[1]) * 180) / Math.PI;
      return { at: [from[0] + part * (to[0] - from[0]), from[1] + part * (to[1] - from[1])], angle };
    }
    left -= long;
  }
  return null;
}

/** How far the north arrow is turned from straight up; null where north is not known. */
export function northOf(outline: PlanOutline, frame: Frame): number | null {
  const { north_deg } = outline;
  if (typeof north_deg !== "number") return null;
  return (frame.turned ? 90 : 0) - north_deg;
}

/** The rows of the zone drawn, and where the job stands among them. */
export interface ZoneRows<R extends PlanRow = PlanRow> {
  zone_id: string | undefined;
  rows: R[];
  /** Rows of this zone already walked. */
  done: number;
  /** The row being walked; null before the first and after the last. */
  now: R | null;
}

/** One zone is drawn at a time: the one being walked, the first before the job, the last after it. */
export function rowsAt<R extends PlanRow>(all: readonly R[], at: number): ZoneRows<R> {
  const now = all.find(({ number }) => number === at) ?? null;
  const zone_id = (now ?? (at < 1 ? all[0] : all.at(-1)))?.zone_id;
  const rows = all.filter((row) => row.zone_id === zone_id);
  return { zone_id, rows, done: rows.filter(({ number }) => number < at).length, now };
}

/** "strip 3 of 14", "round the edge, 1 of 2": counted within the zone. */
export function sayRow(rows: readonly PlanRow[], row: PlanRow): string {
  const same = rows.filter(({ kind }) => kind === row.kind);
  const which = same.findIndex(({ number }) => number === row.number) + 1;
  if (row.kind === "whole") return "the whole zone";
  if (row.kind === "strip") return `strip ${which} of ${same.length}`;
  return same.length > 1 ? `round the edge, ${which} of ${same.length}` : "round the edge";
}
