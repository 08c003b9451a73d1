/** A zone traced over the picture of a plan: places on the picture in its own dots, x to the right and y down. */
import type { Typed } from "../../../format";
import { cornersIn, MOST_CORNERS } from "../../../records/kinds";

export type Dot = [x_px: number, y_px: number];

export interface TraceForm {
  /** Which picture kept on this phone; null while none is chosen. */
  picture: string | null;
  /** Its width in dots. */
  width: number;
  /** Two places a known distance apart. */
  known: Dot[];
  distance: Typed;
  /** The ground first, then each obstacle; the last one is being traced. */
  rings: Dot[][];
  /** Where north points on the picture, degrees clockwise from up; null where it is not known. */
  north: number | null;
}

/** What a tap on the picture sets now. */
export type TraceStep = "known" | "corners";

/** A point on the picture that can be dragged. */
export type TraceHandle = { kind: "known"; at: number } | { kind: "corner"; ring: number; at: number };

const KNOWN = 2;
const LEAST_CORNERS = 3;
const TENTHS = 10;
/** The board is about as many dots of the screen wide; a place is set to one of them with the loupe. */
const SCREEN_DOTS = 320;
const MOST_POINTING = 100;

export function noTrace(unit: string): TraceForm {
  return { picture: null, width: 0, known: [], distance: { amount: "", unit }, rings: [[]], north: null };
}

/** How far a place is likely set wrong, in dots of the picture: one dot of the screen; undefined where unknown. */
export function pointing({ width }: TraceForm): number | undefined {
  return width > 0 ? Math.min(MOST_POINTING, Math.max(1, width / SCREEN_DOTS)) : undefined;
}

const tenth = ([x, y]: Dot): Dot => [Math.round(x * TENTHS) / TENTHS, Math.round(y * TENTHS) / TENTHS];

/** The two known points come first; then corners. */
export const stepOf = (form: TraceForm): TraceStep => (form.known.length < KNOWN ? "known" : "corners");

/** Whether so many more corners fit in: the book takes 400, obstacles counted. */
export const hasRoom = ({ rings }: TraceForm, more = 1): boolean =>
  cornersIn(undefined, rings) + more <= MOST_CORNERS;

/** A tap at a place: the next known point, or the next corner of the ring being traced, while more are taken. */
export function tapped(form: TraceForm, dot: Dot): TraceForm {
  if (stepOf(form) === "known") return { ...form, known: [...form.known, tenth(dot)] };
  if (!hasRoom(form)) return form;
  const last = form.rings.length - 1;
  return { ...form, rings: form.rings.map((ring, k) => (k === last ? [...ring, tenth(dot)] : ring)) };
}

export function handlesOfTrace(form: TraceForm): TraceHandle[] {
  const known = form.known.map((_, at): TraceHandle => ({ kind: "known", at }));
  const corners = form.rings.flatMap((dots, ring) =>
    dots.map((_, at): TraceHandle => ({ kind: "corner", ring, at })),
  );
  return [...known, ...corners];
}

export const traceKey = (handle: TraceHandle): string =>
  handle.kind === "known" ? `known.${handle.at}` : `${handle.ring}.${handle.at}`;

export function dotOf(form: TraceForm, handle: TraceHandle): Dot | undefined {
  return handle.kind === "known" ? form.known[handle.at] : form.rings[handle.ring]?.[handle.at];
}

export function sayTraceHandle({ rings }: TraceForm, handle: TraceHandle): string {
  if (handle.kind === "known") return `Known point ${handle.at + 1} of 2`;
  const corner = `orner ${handle.at + 1} of ${rings[handle.ring]?.length ?? 0}`;
  return handle.ring === 0 ? `C${corner}` : `Obstacle ${handle.ring}, c${corner}`;
}

/** The handle a tap just set: the last known point, or the last corner. */
export function newest(form: TraceForm): TraceHandle | undefined {
  const ring = form.rings.length - 1;
  const at = (form.rings[ring]?.length ?? 0) - 1;
  if (at >= 0) return { kind: "corner", ring, at };
  return form.known.length ? { kind: "known", at: form.known.length - 1 } : undefined;
}

export function dragged(form: TraceForm, handle: TraceHandle, to: Dot): TraceForm {
  const put = (dots: Dot[]) => dots.map((dot, k) => (k === handle.at ? tenth(to) : dot));
  if (handle.kind === "known") return { ...form, known: put(form.known) };
  return { ...form, rings: form.rings.map((ring, k) => (k === handle.ring ? put(ring) : ring)) };
}

/** Takes back what was set last: a corner, an obstacle just begun, or a known point. */
export function undone(form: TraceForm): TraceForm {
  const last = form.rings.length - 1;
  if (form.rings[last]?.length)
    return { ...form, rings: form.rings.map((ring, k) => (k === last ? ring.slice(0, -1) : ring)) };
  if (last > 0) return { ...form, rings: form.rings.slice(0, -1) };
  return { ...form, known: form.known.slice(0, -1) };
}

export const canUndo = (form: TraceForm): boolean =>
  form.known.length > 0 || form.rings.some((ring) => ring.length > 0);

/** Whether the ring being traced encloses something, so that the next one may begin. */
export const ringDone = (form: TraceForm): boolean => (form.rings.at(-1)?.length ?? 0) >= LEAST_CORNERS;

/** Whether an obstacle may begin: its corners still fit in. */
export const canNextRing = (form: TraceForm): boolean => ringDone(form) && hasRoom(form, LEAST_CORNERS);

export const nextRing = (form: TraceForm): TraceForm =>
  canNextRing(form) ? { ...form, rings: [...form.rings, []] } : form;

/** Obstacles that were begun and left without a corner do not count. */
export const obstacles = (form: TraceForm): Dot[][] => form.rings.slice(1).filter((ring) => ring.length > 0);
