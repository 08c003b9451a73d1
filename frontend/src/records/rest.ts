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

/** Whether a control is what and where it was: a tap on it is meant for it, whatever changed beside it. */
export type Stood = (control: EventTarget | null) => boolean;

const nothing: Stood = () => false;

export interface Rest {
  resting: ReadonlySignal<boolean>;
  /** Whether a tap on this control does nothing now. */
  ignores(control: EventTarget | null): boolean;
  /** Rests from now on, where what lies under the thumb has changed; with `stood`, but for what has not. */
  begin(stood?: Stood): void;
  /** Rests while something is recorded, and a moment after. */
  during<T>(work: () => Promise<T>): Promise<T>;
}

export function createRest(wait: Wait = byTimer): Rest {
  const resting = signal(false);
  let callOff = () => {};
  let stood = nothing;
  function restFor(ms: number, but = nothing): void {
    callOff();
    // A rest after a record spares nothing, and is not eased by what changes meanwhile.
    stood = resting.peek() && stood === nothing ? nothing : but;
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
  return {
    resting,
    ignores: (control) => resting.peek() && !stood(control),
    begin: (but) => restFor(REST_MS, but),
    during,
  };
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
