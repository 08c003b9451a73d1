/** The job's steps as entries of the browser; see `trail.ts`. */
import { createContext } from "preact";
import { useContext, useEffect, useMemo } from "preact/hooks";
import { useLocation } from "wouter-preact";
import { waitHere } from "../../../records/rest";
import { showToast } from "../../../ui/parts";
import { spreading } from "../model";
import { createTrail, GUARD } from "./trail";

const AGAIN_MS = 5000;

function standNow() {
  const job = spreading.draft.peek()?.id;
  const step = spreading.step.peek();
  return job && step ? { job, step } : undefined;
}

/** Steps back leads through; where it leads nowhere, though the job has begun, a guard. */
function beneath(): readonly string[] {
  const steps = spreading.beneath.peek();
  const step = spreading.step.peek();
  return steps.length || step === "choose" || step === "finish" ? steps : [GUARD];
}

function traversed(): boolean {
  const [loaded] = performance.getEntriesByType("navigation") as PerformanceNavigationTiming[];
  return loaded?.type === "back_forward";
}

function warn(go: () => void): () => boolean {
  let stands = true;
  waitHere(() => {
    stands = false;
  }, AGAIN_MS);
  const text = "Nothing to go back to. Press Back again for Today.";
  showToast({ text, action: { label: "Go to Today", act: go }, seconds: AGAIN_MS / 1000 });
  return () => stands;
}

/** Out of the job to Today, with no entry of the job beneath. */
const Leaving = createContext<() => Promise<void>>(async () => undefined);
export const OnTrail = Leaving.Provider;
export const useLeave = () => useContext(Leaving);

/** The entries follow the job's step; the way out of it is returned. */
export function useTrail(): () => Promise<void> {
  const [, go] = useLocation();
  // biome-ignore lint/correctness/useExhaustiveDependencies: one trail for as long as the page stands
  const trail = useMemo(
    () =>
      createTrail({
        stand: standNow,
        beneath,
        back: spreading.back,
        traversed,
        done: () => spreading.step.peek() === "finish",
        home: () => go("/", { replace: true }),
        warn: () => warn(() => go("/")),
      }),
    [],
  );
  const ready = spreading.draft.value !== undefined && spreading.loaded.value;
  const [job, step] = [spreading.draft.value?.id, spreading.step.value];
  useEffect(() => {
    if (ready && job && step) trail.follow({ job, step });
  }, [trail, ready, job, step]);
  useEffect(() => {
    addEventListener("popstate", trail.heard);
    return () => removeEventListener("popstate", trail.heard);
  }, [trail]);
  return trail.leave;
}
