/**
 * Hybrid logical clock (S6): wall time that never steps back, with a counter for equal moments.
 * As text, "<13-digit ms>-<4 hex counter>-<8 hex node>", it sorts as it compares.
 */

export interface Hlc {
  ms: number;
  count: number;
}

export const ZERO_HLC: Hlc = { ms: 0, count: 0 };
const LAST_COUNT = 0xffff;

function after(last: Hlc): Hlc {
  return last.count < LAST_COUNT ? { ms: last.ms, count: last.count + 1 } : { ms: last.ms + 1, count: 0 };
}

/** The stamp of the next write: later than every stamp before, whatever the clock did meanwhile. */
export function tick(last: Hlc, nowMs: number): Hlc {
  return nowMs > last.ms ? { ms: nowMs, count: 0 } : after(last);
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
  return match ? { ms: Number(match[1]), count: Number.parseInt(match[2] ?? "", 16) } : undefined;
}
