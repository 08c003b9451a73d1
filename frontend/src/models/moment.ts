/** Moments as the book writes them: ISO 8601 with the zone offset of the place where the work was done. */

function two(value: number): string {
  return String(value).padStart(2, "0");
}

function offsetOf(at: Date): string {
  const minutes = -at.getTimezoneOffset();
  const size = Math.abs(minutes);
  return `${minutes < 0 ? "-" : "+"}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

/** The local calendar day: "2026-05-09". */
export function dayOf(at: Date): string {
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

/** What a datetime-local input holds: "2026-05-09T18:30". */
export function localOf(at: Date): string {
  return `${dayOf(at)}T${two(at.getHours())}:${two(at.getMinutes())}`;
}

/** "2026-05-09T18:30:12-05:00" */
export function momentOf(at: Date): string {
  return `${localOf(at)}:${two(at.getSeconds())}${offsetOf(at)}`;
}

/** A datetime-local text as a moment of this place; undefined when it is not a date. */
export function momentFromLocal(text: string): string | undefined {
  const at = new Date(text);
  return text && !Number.isNaN(at.getTime()) ? momentOf(at) : undefined;
}

/** The day a moment was, as it was called at the place: its own text, not this phone's zone. */
export function dayOfMoment(moment: string): string {
  return moment.slice(0, 10);
}

/** What a datetime-local input shows for a stored moment: the clock of the place where it was done. */
export function localOfMoment(moment: string): string {
  return moment.slice(0, 16);
}

/** The wall time of a write, from the millisecond part of its hybrid logical clock. */
export function timeOfHlc(hlc: string | undefined): Date | undefined {
  const ms = Number(hlc?.split("-")[0]);
  return Number.isFinite(ms) && ms > 0 ? new Date(ms) : undefined;
}
