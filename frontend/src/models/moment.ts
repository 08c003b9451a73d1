/** Moments between the book (ISO 8601 with the zone offset of the place) and the inputs of a form. */
import { isoMoment } from "../format";
import { parseHlc } from "../store/core/hlc";

/** A datetime-local text as a moment of this place; undefined when it is not a date. */
export function momentFromLocal(text: string): string | undefined {
  const at = new Date(text);
  return text && !Number.isNaN(at.getTime()) ? isoMoment(at) : undefined;
}

/** What a datetime-local input shows for a stored moment: the clock of the place where it was done. */
export function localOfMoment(moment: string): string {
  return (moment.endsWith("Z") ? isoMoment(new Date(moment)) : moment).slice(0, 16);
}

/** The day a moment was, as it was called at the place. */
export function dayOfMoment(moment: string): string {
  return localOfMoment(moment).slice(0, 10);
}

/** The wall time of a write, from the millisecond part of its hybrid logical clock. */
export function timeOfHlc(hlc: string | undefined): string | undefined {
  const ms = parseHlc(hlc ?? "")?.ms;
  return ms ? isoMoment(new Date(ms)) : undefined;
}
