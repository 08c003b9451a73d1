/** How a save that failed is said: one sentence, everywhere the same. Nothing was written, and what was typed is kept. */
import { type ReadonlySignal, signal } from "@preact/signals";
import { allRead } from "./amount";

export const NOT_SAVED = "Not saved. Free some space on this phone and try again.";

/** By what the store says went wrong (store/room.ts); anything else is taken for want of space, the usual cause. */
const SAYS: Record<string, string> = {
  full: NOT_SAVED,
  lost: "Not saved. This phone’s storage did not answer. Try again, or restart the app.",
  blocked: "Not saved. Close the other tab of this app and try again.",
  older_page: "Not saved. Reload this page and try again.",
  newer: "Not saved. Update the app and try again.",
};

export function sayNotSaved(error: unknown): string {
  const kind = (error as { kind?: unknown } | undefined)?.kind;
  return (typeof kind === "string" && SAYS[kind]) || NOT_SAVED;
}

export interface Saving {
  /** A save is under way; a second one waits for the next tap. */
  readonly busy: ReadonlySignal<boolean>;
  /** Why the last save failed; gone with the next try. */
  readonly problem: ReadonlySignal<string | undefined>;
  /**
   * Makes a save and says how it ended: true where it was made. It never rejects and is never busy for good. What `work`
   * returns as false was not asked of the phone (a form with an error): no problem, and not saved.
   */
  run(work: () => Promise<unknown>): Promise<boolean>;
}

export function createSaving(): Saving {
  const busy = signal(false);
  const problem = signal<string | undefined>(undefined);
  return {
    busy,
    problem,
    async run(work) {
      if (busy.peek()) return false;
      busy.value = true;
      problem.value = undefined;
      try {
        await allRead();
        return (await work()) !== false;
      } catch (error) {
        problem.value = sayNotSaved(error);
        return false;
      } finally {
        busy.value = false;
      }
    },
  };
}
