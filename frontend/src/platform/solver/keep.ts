/**
 * The solver is a megabyte that most openings have no use for: it is no part of what the app needs to start, and is
 * fetched when nothing else is to do. The service worker keeps it, so that a season can be planned without a network.
 */
import highsWasm from "highs/runtime?url";
import solverWorker from "./solver-worker?worker&url";

export const SOLVER_FILES: readonly string[] = [solverWorker, highsWasm];

/** Where a phone asks to save data, the solver waits until a season is opened. */
export const savesData = (): boolean =>
  (navigator as { connection?: { saveData?: boolean } }).connection?.saveData === true;

/** Asks for its files once; without a network nothing happens, and the next start asks again. */
export async function keepSolver(): Promise<void> {
  if (!navigator.serviceWorker?.controller) return;
  for (const file of SOLVER_FILES) {
    const answer = await fetch(file).catch(() => undefined);
    await answer?.arrayBuffer().catch(() => undefined);
  }
}
