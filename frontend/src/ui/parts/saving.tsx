import { useMemo } from "preact/hooks";
import { createSaving, type Saving, sayNotSaved } from "../../forms/saving";
import { Notice } from "./notice";
import { showToast } from "./toast";

/** The save of one form or button: busy while it runs, never after; `NotSaved` says why it failed. */
export function useSaving(): Saving {
  return useMemo(createSaving, []);
}

/** Beside the button that saves: a sheet hides what stands at the foot of the page. */
export function NotSaved({ of }: { of: Saving }) {
  const says = of.problem.value;
  return <div aria-live="assertive">{says ? <Notice kind="bad">{says}</Notice> : null}</div>;
}

const READING_S = 10;

/** A save at one tap, with no form to say it in: the failure is said at the foot of the screen. */
export async function orSay<V>(work: () => Promise<V>): Promise<{ value: V } | undefined> {
  try {
    return { value: await work() };
  } catch (error) {
    showToast({ text: sayNotSaved(error), seconds: READING_S });
    return undefined;
  }
}
