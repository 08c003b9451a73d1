/**
 * Hybrid logical clock (S6): wall time that never steps back, with a counter for equal moments.
 * As text, "<13-digit ms>-<4 hex counter>-<8 hex node>", it sorts as it compares.
 */

export interface Hlc {
  ms: number;
  count: number;
}

export const ZERO_HLC: Hlc = { ms: 0, count: 0 };
/**
 * The end of 2269, as the server has it (lawn/book/merging/clock.py): a later stamp was never given. A clock that followed one
 * could soon not count on in 13 digits, and no op of this phone would be taken any more.
 */
export const LAST_MS = 9_467_107_199_999;
const LAST_COUNT = 0xffff;

function after(last: Hlc): Hlc {
  return last.count < LAST_COUNT ? { ms: last.ms, count: last.count + 1 } : { ms: last.ms + 1, count: 0 };
}

/**
 * The stamp of the next write: later than every stamp before, whatever the clock did meanwhile. A clock that shows what
 * no clock can is not followed, and counters spoilt by such a stamp begin again at the time it is.
 */
export function tick(last: Hlc, nowMs: number): Hlc {
  const from = last.ms > LAST_MS ? ZERO_HLC : last;
  return nowMs > from.ms && nowMs <= LAST_MS ? { ms: nowMs, count: 0 } : after(from);
}

/** Takes note of another phone's stamp, so that a write made after seeing it sorts after it. */
export function receive(last: Hlc, seen: string): Hlc {
  const other = parseHlc(seen);
  if (!other) return last;
  return other.ms > last.ms || (other.ms === last.ms && other.count > last.count) ? other : last;
}

export function formatHlc(hlc: Hlc, node: string): string {
  return `${String(hlc.ms).padStart(13, "0")}-${hlc.count.toString(16).padStart(4, "0")}-${node}`;
}

/** The stamp in a text, or undefined when it is none (then it is ignored, never guessed). */
export function parseHlc(text: string): Hlc | undefined {
  const match = /^(\d{13})-([0-9a-f]{4})-[0-9a-f]{8}$/.exec(text);
  const ms = Number(match?.[1]);
  return match && ms <= LAST_MS ? { ms, count: Number.parseInt(match[2] ?? "", 16) } : undefined;
}

/** Whether a stamp comes after another; what is none comes before all that are, as on the server. */
export function isAfter(stamp: string | undefined, other: string): boolean {
  return stamp !== undefined && parseHlc(stamp) !== undefined && (!parseHlc(other) || stamp > other);
}
