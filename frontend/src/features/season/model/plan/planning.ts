/**
 * Plans a season on this phone: the engine makes the model, the solver finds values, the engine reads them. The half-month
 * grid comes first, for a plan within seconds; then every week near what it chose. Whatever was found stays where it ends.
 */
import { type ReadonlySignal, signal } from "@preact/signals";
import type { Answer, Args, EngineError, Step, Value } from "../../../../platform/engine";
import type { Engine } from "../../../../platform/engine/ask";
import type { beginSolve, Found as FoundValues, Outcome, Solve } from "../../../../platform/solver";
import type { Asked } from "./book";
import { mondayOf } from "./changes";

export type Gathered = Value<"season.arguments">;
export type Plan = Value<"season.read">;
type Built = Value<"season.build">;
type PlanArgs = Args<"season.build">;

export interface Shown {
  plan: Plan;
  /** How its figures come about. */
  working: Step[];
  gathered: Gathered;
}

/** How far it has come: what the best plan costs, and under what none can be. */
export interface Progress {
  cost: number;
  bound: number | null;
}

export type Trouble =
  | { kind: "refused"; error: EngineError }
  /** The solver could not be read: it has not come to this phone yet. */
  | { kind: "no_solver" }
  | { kind: "nothing_found" }
  | { kind: "nothing_to_plan"; gathered: Gathered }
  | { kind: "blocked"; gives: Value<"season.blocked">["gives"]; gathered: Gathered };

export interface Planning {
  busy: ReadonlySignal<boolean>;
  shown: ReadonlySignal<Shown | undefined>;
  progress: ReadonlySignal<Progress | undefined>;
  trouble: ReadonlySignal<Trouble | undefined>;
  run(asked: Asked): Promise<void>;
  /** Ends the search with the best plan so far. */
  stop(): void;
  /** Forgets what was found. */
  clear(): void;
}

export interface PlanningParts {
  engine: Engine;
  solve: typeof beginSolve;
}

const COARSE_SECONDS = 10;
const FINE_SECONDS = 15;
const GAP_SHARE = 0.01;
const BLOCKED_SECONDS = 10;

class Refused extends Error {
  constructor(readonly error: EngineError) {
    super(error.message);
  }
}
class NoSolver extends Error {}

type PlanRead = Pick<Shown, "plan" | "working">;

/** Whether every feed is where it stood. */
function stays(plan: Plan, present: PlanArgs["wishes"]["present"]): boolean {
  const stood = (step: Plan["steps"][number]) =>
    present?.some(
      ({ group, product, date }) =>
        group === step.group && product === step.product && mondayOf(date) === mondayOf(step.date),
    );
  const feeds = plan.steps.filter(({ sort }) => sort === "feed");
  return feeds.length > 0 && feeds.every(stood);
}

function answered<V>(answer: Answer<V>): V {
  if (answer.error) throw new Refused(answer.error);
  return answer.value;
}

const planArgs = ({ plan }: Gathered): PlanArgs => plan as PlanArgs;

export function createPlanning({ engine, solve }: PlanningParts): Planning {
  const [busy, shown] = [signal(false), signal<Shown | undefined>(undefined)];
  const progress = signal<Progress | undefined>(undefined);
  const trouble = signal<Trouble | undefined>(undefined);
  let now: Solve | undefined;
  /** Of the latest run: what an earlier one still finds is dropped. */
  let turn = 0;
  let stopped = false;

  async function solved(
    problem: Built["model"],
    start: number[] | undefined,
    seconds: number,
    tell: (one: FoundValues) => void,
  ) {
    now = solve(problem, { start, seconds, gapShare: GAP_SHARE }, tell);
    try {
      return await now.outcome;
    } catch {
      throw new NoSolver();
    } finally {
      now = undefined;
    }
  }

  async function read(args: PlanArgs, found: FoundValues, ended: boolean): Promise<PlanRead> {
    const bound = found.bound === null ? {} : { bound: found.bound };
    const answer = await engine.call("season.read", {
      ...args,
      solution: found.solution,
      stopped: ended,
      ...bound,
    });
    return { plan: answered(answer), working: answer.working ?? [] };
  }

  /** One grid, searched; undefined where it has no plan that could be shown. */
  async function grid(args: PlanArgs, seconds: number, first: (found: FoundValues) => void) {
    const built = answered(await engine.call("season.build", args));
    progress.value = undefined;
    if (stopped) return { read: undefined, outcome: undefined };
    const outcome: Outcome = await solved(built.model, built.start, seconds, (found) => {
      if (!progress.value || found.cost <= progress.value.cost)
        progress.value = { cost: found.cost, bound: found.bound };
      first(found);
    });
    if (outcome.solution === null) return { read: undefined, outcome };
    return { read: await read(args, outcome, outcome.status === "out of time"), outcome };
  }

  async function plan(gathered: Gathered, mine: number): Promise<void> {
    const args = planArgs(gathered);
    const show = (found: PlanRead) => {
      const best = shown.value?.plan;
      if (mine === turn && !(best && best.weighed_cost < found.plan.weighed_cost))
        shown.value = { ...found, gathered };
    };
    let early = false;
    const coarse = { ...args, wishes: { ...args.wishes, grid: "half_month" as const } };
    const first = (found: FoundValues) => {
      if (early) return;
      early = true;
      void read(coarse, found, true).then(show, () => undefined);
    };
    const half = await grid(coarse, COARSE_SECONDS, first);
    if (half.outcome?.status === "nothing fits") return blocked(gathered, mine);
    if (!half.read) return tell(mine, { kind: "nothing_found" });
    show(half.read);
    // A plan that is kept was refined when it was found: where nothing changed there is nothing to look for.
    if (stopped || mine !== turn || stays(half.read.plan, args.wishes.present)) return;
    const near = half.read.plan.steps
      .filter(({ sort }) => sort === "feed")
      .map(({ group, date }) => ({ group, date }));
    const weekly = { ...args, wishes: { ...args.wishes, grid: "weekly" as const, near } };
    const fine = await grid(weekly, FINE_SECONDS, () => undefined);
    if (fine.read) show(fine.read);
  }

  async function blocked(gathered: Gathered, mine: number): Promise<void> {
    const args = planArgs(gathered);
    const { model } = answered(await engine.call("season.blocked", args));
    const outcome = await solved(model as Built["model"], undefined, BLOCKED_SECONDS, () => undefined);
    const { solution } = outcome;
    if (solution === null) return tell(mine, { kind: "nothing_found" });
    const { gives } = answered(await engine.call("season.blocked", { ...args, solution }));
    tell(mine, { kind: "blocked", gives, gathered });
  }

  function tell(mine: number, what: Trouble): void {
    if (mine === turn) trouble.value = what;
  }

  async function run(asked: Asked): Promise<void> {
    const mine = ++turn;
    now?.stop();
    stopped = false;
    busy.value = true;
    shown.value = progress.value = trouble.value = undefined;
    try {
      const gathered = answered(await engine.call("season.arguments", asked));
      if (gathered.plan.groups.length) await plan(gathered, mine);
      else tell(mine, { kind: "nothing_to_plan", gathered });
    } catch (error) {
      if (error instanceof Refused) tell(mine, { kind: "refused", error: error.error });
      else if (error instanceof NoSolver) tell(mine, { kind: "no_solver" });
      else throw error;
    } finally {
      if (mine === turn) busy.value = false;
    }
  }

  return {
    busy,
    shown,
    progress,
    trouble,
    run,
    stop: () => {
      stopped = true;
      now?.stop();
    },
    clear: () => {
      turn += 1;
      stopped = true;
      now?.stop();
      busy.value = false;
      shown.value = progress.value = trouble.value = undefined;
    },
  };
}
