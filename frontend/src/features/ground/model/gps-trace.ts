/** The edge of a zone walked with the phone: every fix kept as it comes, and the watch that brings them. */

import { signal } from "@preact/signals";
import type { Args } from "../../../platform/engine/types";

export interface Fix {
  lat: number;
  lon: number;
  accuracy_m: number;
}

export interface GpsForm {
  fixes: Fix[];
  /** Where a stretch began: at the start and after every pause. */
  marks: number[];
  /** "walking" stands through a locked or killed phone, so that it goes on by itself. */
  state: "new" | "walking" | "paused" | "closed";
}

export const NO_WALK: GpsForm = { fixes: [], marks: [], state: "new" };
/** The last stretch is what came since the last pause, and no more than this. */
const STRETCH_FIXES = 10;
/** A hundred-millionth of a degree is a millimetre: kept to about a centimetre. */
const DEGREES = 1e7;
const LEAST_FIXES = 3;
/** Worse fixes are shown and kept, but do not count. */
export const WORST_ACCURACY_M = 10;
const GOOD_ACCURACY_M = 5;
/** More than this is a quarter of an hour of standing about: the fixes that do not count are then let go. */
const MOST_FIXES = 2000;

/** The fixes with one more; only while walking. */
export function withFix(form: GpsForm, fix: Fix): GpsForm {
  if (form.state !== "walking") return form;
  const kept = {
    lat: Math.round(fix.lat * DEGREES) / DEGREES,
    lon: Math.round(fix.lon * DEGREES) / DEGREES,
    accuracy_m: Math.round(fix.accuracy_m * 10) / 10,
  };
  return { ...form, fixes: [...form.fixes, kept] };
}

/** Starts, or goes on after a pause: a new stretch. */
export function walking(form: GpsForm): GpsForm {
  const begun = form.marks.includes(form.fixes.length) ? form.marks : [...form.marks, form.fixes.length];
  return { ...form, marks: begun, state: "walking" };
}

export const paused = (form: GpsForm): GpsForm => ({ ...form, state: "paused" });

/** The ring closed. A very long walk keeps only the fixes the engine counted, so that it can be sent in one piece. */
export function closed(form: GpsForm, leftOut: readonly { index: number }[] = []): GpsForm {
  if (form.fixes.length <= MOST_FIXES) return { ...form, state: "closed" };
  const out = new Set(leftOut.map(({ index }) => index));
  return { fixes: form.fixes.filter((_, at) => !out.has(at)), marks: [0], state: "closed" };
}

export const gpsArgs = ({ fixes }: GpsForm): Args<"area.gps"> => ({
  fixes,
  worst_accuracy_m: WORST_ACCURACY_M,
});

/** How good a fix is, in a word. */
export function accuracyWord(accuracy_m: number): "good" | "fair" | "too rough, not used" {
  if (accuracy_m > WORST_ACCURACY_M) return "too rough, not used";
  return accuracy_m <= GOOD_ACCURACY_M ? "good" : "fair";
}
export const canClose = (form: GpsForm): boolean => form.fixes.length >= LEAST_FIXES;

/** Without the last stretch; pauses, so that the person can walk back to where it began. */
export function takenBack(form: GpsForm): GpsForm {
  const count = form.fixes.length;
  const begun = form.marks.filter((mark) => mark < count).at(-1) ?? 0;
  const from = Math.max(begun, count - STRETCH_FIXES);
  return {
    fixes: form.fixes.slice(0, from),
    marks: form.marks.filter((mark) => mark < from),
    state: "paused",
  };
}

export type Trouble = "insecure" | "absent" | "refused" | "no_place" | "late";

/** What is the matter and what to do about it. */
export const TROUBLES: Record<Trouble, { title: string; help: string }> = {
  insecure: {
    title: "Location needs a secure (https) address",
    help: "Open Evenfall by its https address, then walk the edge. Shapes and a tape work here.",
  },
  absent: {
    title: "This device has no GPS",
    help: "Measure with a tape: shapes, widths from a line, or from one point. Or walk the edge with a phone that has GPS.",
  },
  refused: {
    title: "Location is blocked",
    help: "Allow location for this page in the browser’s or the phone’s settings, then tap Start again. Or measure with a tape.",
  },
  no_place: {
    title: "No location found",
    help: "Turn location on. Step into the open, away from walls and trees, and wait a minute. Your points are saved.",
  },
  late: {
    title: "No GPS point yet",
    help: "The first can take a minute. Stand still in the open, away from walls and trees. Your points are saved.",
  },
};

export type Watching = "off" | "asking" | "on";
type Geo = Pick<Geolocation, "watchPosition" | "clearWatch">;

export interface WatchParts {
  /** The phone's own, asked for when it is needed; undefined where there is none. */
  geo: () => Geo | undefined;
  /** Whether the page may ask at all. */
  secure: boolean;
  onFix: (fix: Fix) => void;
}

const CODES: Record<number, Trouble> = { 1: "refused", 2: "no_place", 3: "late" };
const OPTIONS: PositionOptions = { enableHighAccuracy: true, maximumAge: 0, timeout: 20_000 };

/** Follows the phone's place between `start` and `stop`; trouble is said, and goes when a fix comes. */
export function createGpsWatch({ geo, secure, onFix }: WatchParts) {
  const state = signal<Watching>("off");
  const trouble = signal<Trouble | undefined>(undefined);
  const last = signal<Fix | undefined>(undefined);
  let watch: number | undefined;
  let watched: Geo | undefined;
  let seen = 0;

  function stop(): void {
    if (watch !== undefined) watched?.clearWatch(watch);
    watch = undefined;
    state.value = "off";
  }

  function heard({ coords, timestamp }: GeolocationPosition): void {
    // Some phones say the same place again when the watch is taken up anew.
    if (watch === undefined || (timestamp && timestamp === seen)) return;
    seen = timestamp;
    state.value = "on";
    trouble.value = undefined;
    last.value = { lat: coords.latitude, lon: coords.longitude, accuracy_m: coords.accuracy };
    onFix(last.value);
  }

  function failed({ code }: { code: number }): void {
    trouble.value = CODES[code] ?? "no_place";
    // Refused stays refused; the others may still come right while the watch goes on.
    if (trouble.value === "refused") stop();
  }

  function start(): void {
    if (watch !== undefined) return;
    watched = geo();
    trouble.value = secure ? (watched ? undefined : "absent") : "insecure";
    if (trouble.value || !watched) return;
    state.value = "asking";
    watch = watched.watchPosition(heard, failed, OPTIONS);
  }

  return { state, trouble, last, start, stop };
}

export type GpsWatch = ReturnType<typeof createGpsWatch>;
