/**
 * A list that keeps still under a thumb. For two seconds after something is recorded its rows stay in their order, and
 * each still knows what it was, so that no button appears, goes or moves meanwhile.
 */
import { computed, type ReadonlySignal, signal } from "@preact/signals";
import { type Wait, waitHere } from "../records/rest";

export const STILL_MS = 2000;

export interface StillRow<T> {
  id: string;
  /** As the row was when the list was held; the same as `now` while it is not. */
  was: T;
  /** As it is by now; undefined where it has left the list and its place is only being kept. */
  now: T | undefined;
}

export interface Still<T> {
  rows: ReadonlySignal<readonly StillRow<T>[]>;
  /** Whether it is held now. */
  held: ReadonlySignal<boolean>;
  /** Holds the list as it is, for two seconds from now on. */
  hold(): void;
}

function keeping<T extends { id: string }>(kept: readonly T[], rows: readonly T[]): StillRow<T>[] {
  const now = new Map(rows.map((row) => [row.id, row]));
  const known = new Set(kept.map(({ id }) => id));
  const come = rows.filter(({ id }) => !known.has(id));
  return [...kept, ...come].map((was) => ({ id: was.id, was, now: now.get(was.id) }));
}

export function createStill<T extends { id: string }>(
  source: ReadonlySignal<readonly T[]>,
  wait: Wait = waitHere,
  /** True while what is shown will be replaced: it is held until that has come. */
  awaited: () => boolean = () => false,
): Still<T> {
  const kept = signal<readonly T[] | undefined>(undefined);
  let callOff = () => {};
  function over(): void {
    if (awaited()) callOff = wait(over, STILL_MS);
    else kept.value = undefined;
  }
  function hold(): void {
    callOff();
    kept.value ??= source.peek();
    callOff = wait(over, STILL_MS);
  }
  const rows = computed(() => keeping(kept.value ?? source.value, source.value));
  return { rows, held: computed(() => kept.value !== undefined), hold };
}
