import { useMemo } from "preact/hooks";
import { createSaving, type Saving } from "../../forms/saving";
import { Notice } from "./notice";

/** The save of one form or button: busy while it runs, never after; `NotSaved` says why it failed. */
export function useSaving(): Saving {
  return useMemo(createSaving, []);
}

/** Beside the button that saves: a sheet hides what stands at the foot of the page. */
export function NotSaved({ of }: { of: Pick<Saving, "problem"> }) {
  const says = of.problem.value;
  return <div aria-live="assertive">{says ? <Notice kind="bad">{says}</Notice> : null}</div>;
}
