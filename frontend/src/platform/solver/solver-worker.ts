/** The solver's worker: a solve keeps it busy to its end, so that it is ended, not asked, to stop. */
import { expose } from "comlink";
import loadHighs from "highs";
import highsWasm from "highs/runtime?url";
import { type Found, type Outcome, type Problem, solve, type Wish } from "./solving";

const ready = loadHighs({ locateFile: () => new URL(highsWasm, self.location.href).href });
// A failed load is answered solve by solve; without this it would also count as unhandled.
ready.catch(() => undefined);

export const api = {
  solve: async (problem: Problem, wish: Wish, tell: (found: Found) => void): Promise<Outcome> =>
    solve(await ready, problem, wish, tell),
};

export type SolverApi = typeof api;

expose(api);
