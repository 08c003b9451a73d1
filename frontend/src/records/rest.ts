/**
 * The rest after something is recorded. A gloved thumb shakes: what comes down again a moment later, on the same button
 * or on whatever has come to lie under it by then, is the same tap. Every button heeds it (`parts/button`), everything
 * that records begins it, so there is one rest and no list of buttons to keep.
 */
import { effect, type ReadonlySignal, signal } from "@preact/signals";
import type { Store } from "../platform/store/types";

/** Calls back after so long; what it returns calls that off. Tests hand in their own. */
export type Wait = (over: () => void, ms: number) => () => void;

/** Second taps of one shake were seen 180 to 400 ms after the first; nobody means two things within this. */
export const REST_MS = 700;
/** A save that takes longer than this is no reason to hold every other button. */
const LONGEST_MS = 3000;

export const byTimer: Wait = (over, ms) => {
  const timer = setTimeout(over, ms);
  return () => clearTimeout(timer);
};

export interface Rest {
  resting: ReadonlySignal<boolean>;
  /** Rests from now on, where a tap has changed what lies under the thumb. */
  begin(): void;
  /** Rests while something is recorded, and a moment after. */
  during<T>(work: () => Promise<T>): Promise<T>;
}

export function createRest(wait: Wait = byTimer): Rest {
  const resting = signal(false);
  let callOff = () => {};
  function restFor(ms: number): void {
    callOff();
    resting.value = true;
    callOff = wait(() => {
      resting.value = false;
    }, ms);
  }
  async function during<T>(work: () => Promise<T>): Promise<T> {
    restFor(LONGEST_MS);
    try {
      return await work();
    } finally {
      restFor(REST_MS);
    }
  }
  return { resting, begin: () => restFor(REST_MS), during };
}

let waitedBy: Wait = byTimer;

/** How this phone waits, for tests: most of them have no thumb that shakes. */
export function waitBy(wait: Wait): void {
  waitedBy = wait;
}

export const waitHere: Wait = (over, ms) => waitedBy(over, ms);

/** The one rest of this phone. */
export const rest: Rest = createRest(waitHere);

/** The page says so to whoever drives it from outside. */
export function showRest(): void {
  effect(() => {
    document.documentElement.toggleAttribute("data-resting", rest.resting.value);
  });
}

/** A store whose saves are each followed by the rest. */
export function restful(store: Store, { during }: Rest = rest): Store {
  return {
    ...store,
    save: (...saved) => during(() => store.save(...saved)),
    withdraw: (op) => during(() => store.withdraw(op)),
  };
}
