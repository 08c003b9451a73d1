/** Moments between the book (ISO 8601 with the zone offset of the place) and the inputs of a form. */

import { isoMoment } from "./index";

/** A datetime-local text as a moment of this place; undefined when it is not a date. */
export function momentFromLocal(text: string): string | undefined {
  const at = new Date(text);
  return text && !Number.isNaN(at.getTime()) ? isoMoment(at) : undefined;
}

/** What a datetime-local input shows for a stored moment: the clock of the place where it was done. */
export function localOfMoment(moment: string): string {
  return (moment.endsWith("Z") ? isoMoment(new Date(moment)) : moment).slice(0, 16);
}

export const NO_WHEN = "Choose a day and a time.";

/**
 * A stored moment with its input's text changed: the same moment where the text says what it said, else the clock of the
 * place it was first written at. An entry of a trip is not moved by hours because it is put right at home.
 */
export function momentMoved(text: string, from: string): string | undefined {
  if (text === localOfMoment(from)) return from;
  const offset = offsetElsewhere(from);
  if (!offset) return momentFromLocal(text);
  const moved = `${text.length === 16 ? `${text}:00` : text}${offset}`;
  return Number.isNaN(Date.parse(moved)) ? undefined : moved;
}

/** The offset of a moment written where clocks stood otherwise than this phone's did then. */
function offsetElsewhere(moment: string): string | undefined {
  const at = new Date(moment);
  const offset = /[+-]\d\d:\d\d$/.exec(moment)?.[0];
  return offset && !Number.isNaN(at.getTime()) && offset !== isoMoment(at).slice(-6) ? offset : undefined;
}

/** Says whose clock a form shows, where it is not this phone's. */
export function zoneElsewhere(moment: string): string {
  const offset = offsetElsewhere(moment);
  return offset ? `The clock of the place it was done (UTC${offset}).` : "";
}

/** The day a moment was, as it was called at the place. */
export function dayOfMoment(moment: string): string {
  return localOfMoment(moment).slice(0, 10);
}
