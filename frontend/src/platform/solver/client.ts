/**
 * A solve that goes on beside everything else, in a worker of its own: each has its own, which ends with it. What was found
 * by the time somebody stops it, or the solver dies, is the answer.
 */
import { proxy, type Remote, wrap } from "comlink";
import type { SolverApi } from "./solver-worker";
import solverWorker from "./solver-worker?worker&url";
import type { Found, Outcome, Problem, Wish } from "./solving";

/** What the client needs of a worker; tests hand in their own. */
export interface Solver {
  solve(problem: Problem, wish: Wish, tell: (found: Found) => void): Promise<Outcome>;
  /** Called when the worker died. */
  onCrash(heard: (why: Error) => void): void;
  stop(): void;
}

export interface Solve {
  /** Rejects where the solver could not be read, or failed with nothing found. */
  outcome: Promise<Outcome>;
  /** Ends it with what was found by now. */
  stop(): void;
}

export function begin(
  spawn: () => Solver,
  problem: Problem,
  wish: Wish,
  tell: (found: Found) => void = () => undefined,
): Solve {
  const solver = spawn();
  let best: Found | undefined;
  let over = false;
  const soFar = (): Outcome =>
    best ? { ...best, status: "out of time" } : { status: "out of time", solution: null };
  let end: (outcome: Outcome | Promise<Outcome>) => void = () => undefined;
  const ended = new Promise<Outcome>((resolve) => {
    end = resolve;
  });
  const failed = (why: unknown) => end(best ? soFar() : Promise.reject(why));
  const heard = (found: Found) => {
    if (over) return;
    best = found;
    tell(found);
  };
  solver.onCrash(failed);
  solver.solve(problem, wish, heard).then(end, failed);
  const outcome = ended.finally(() => {
    over = true;
    solver.stop();
  });
  return { outcome, stop: () => end(soFar()) };
}

/** The real worker, wrapped. A worker whose script cannot be read only says "error" on itself. */
function spawnWorker(): Solver {
  const worker = new Worker(solverWorker, { type: "module", name: "solver" });
  const remote: Remote<SolverApi> = wrap<SolverApi>(worker);
  return {
    solve: (problem, wish, tell) => remote.solve(problem, wish, proxy(tell)),
    onCrash: (heard) => {
      const died = () => heard(new Error("the solver stopped"));
      worker.addEventListener("error", died);
      worker.addEventListener("messageerror", died);
    },
    stop: () => worker.terminate(),
  };
}

/** Begins a solve on this phone; nothing waits for it but who asked. */
export const beginSolve = (problem: Problem, wish: Wish, tell?: (found: Found) => void): Solve =>
  begin(spawnWorker, problem, wish, tell);
