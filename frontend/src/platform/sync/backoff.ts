/** When to try again: numbers only, chance handed in. */

export const CAP_MS = 5 * 60_000;
const FIRST_MS = 2_000;
/** While the app is open and in view, others' entries are fetched about this often. */
export const IDLE_MS = 60_000;
/** After a save: long enough to bundle taps, short enough to be sent before the phone is pocketed. */
export const AFTER_SAVE_MS = 2_000;

/**
 * Pause after the nth failure in a row: doubling from 2 s, at most 5 minutes, spread over half its
 * length by `chance` (0 to 1) so that phones do not all come back at once. Never gives up (S17).
 */
export function pauseMs(failures: number, chance: number): number {
  const full = Math.min(CAP_MS, FIRST_MS * 2 ** Math.min(failures - 1, 20));
  return full / 2 + (full / 2) * chance;
}

/** However long a server asks to be left alone, one try an hour is made. */
export const MOST_RETRY_AFTER_MS = 60 * 60_000;
