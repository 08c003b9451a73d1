/**
 * One mixed-integer model to the HiGHS solver and what came of it: the same solver as on the server, so the same plan.
 * It runs in one go; what it finds on the way is told as it is found.
 */
import type { Highs, Model } from "highs";

/** The model as the engine builds it (`season.build`); null where there is no bound. */
export interface Problem {
  columns: readonly { low: number | null; high: number | null; cost: number; integer: boolean }[];
  /** The terms of a row: which column, and how often. */
  rows: readonly {
    low: number | null;
    high: number | null;
    terms: readonly (readonly [column: number, times: number])[];
  }[];
}

export interface Wish {
  /** A solution to begin from, and to be no worse than. */
  start?: readonly number[] | undefined;
  /** When to stop: after so many seconds, or once no plan could be cheaper by more than this share. */
  seconds: number;
  gapShare: number;
}

/** A plan found on the way: the cost of it, and below what no plan can cost. */
export interface Found {
  solution: number[];
  cost: number;
  bound: number | null;
}

export type Outcome =
  | (Found & { status: "solved" | "out of time" })
  | { status: "nothing fits" | "out of time"; solution: null };

const finite = (bound: number): number | null => (Math.abs(bound) < 1e100 ? bound : null);

function modelOf(highs: Highs, { columns, rows }: Problem): Model {
  const { continuous, integer } = highs.constants.variableType;
  const low = ({ low }: { low: number | null }) => low ?? -highs.infinity;
  const high = ({ high }: { high: number | null }) => high ?? highs.infinity;
  const starts = [0];
  for (const { terms } of rows) starts.push((starts.at(-1) as number) + terms.length);
  const terms = rows.flatMap((row) => row.terms);
  return highs.createModel({
    numCols: columns.length,
    numRows: rows.length,
    colCost: columns.map(({ cost }) => cost),
    colLower: columns.map(low),
    colUpper: columns.map(high),
    rowLower: rows.map(low),
    rowUpper: rows.map(high),
    integrality: columns.map((column) => (column.integer ? integer : continuous)),
    matrix: {
      format: "csr",
      numRows: rows.length,
      numCols: columns.length,
      starts,
      indices: terms.map(([column]) => column),
      values: terms.map(([, times]) => times),
    },
  });
}

const costOf = ({ columns }: Problem, solution: readonly number[]): number =>
  columns.reduce((sum, { cost }, at) => sum + cost * (solution[at] ?? 0), 0);

/** Whether a solution costs what the solver says: to a millionth. */
const agrees = (problem: Problem, { solution, cost }: Found): boolean =>
  Math.abs(costOf(problem, solution) - cost) <= 1e-6 * Math.max(1, Math.abs(cost));

/**
 * Solves it; `tell` hears of each better plan while it goes on. Throws where the solver itself fails.
 *
 * A start carried into HiGHS's smaller model can be given a cost it does not have there (seen in 1.16), and what costs more
 * than that is then never looked at. Its own values tell: the search begins again without the start.
 */
export function solve(highs: Highs, problem: Problem, wish: Wish, tell: (found: Found) => void): Outcome {
  const hears = (found: Found) => void (agrees(problem, found) && tell(found));
  const outcome = search(highs, problem, wish, hears);
  if (!wish.start || outcome.solution === null || agrees(problem, outcome)) return outcome;
  return search(highs, problem, { ...wish, start: undefined }, hears);
}

function search(highs: Highs, problem: Problem, wish: Wish, tell: (found: Found) => void): Outcome {
  const model = modelOf(highs, problem);
  try {
    model.options.set({
      output_flag: false,
      time_limit: wish.seconds,
      mip_rel_gap: wish.gapShare,
      mip_abs_gap: 1e-7,
    });
    if (wish.start) model.setSolution({ colValue: [...wish.start] });
    model.run({
      [highs.constants.callbackType.mipImprovingSolution]({ data }) {
        const { mip_solution: solution, mip_dual_bound: bound, objective_function_value: cost } = data;
        if (!solution || cost === undefined) return;
        tell({ solution: [...solution], cost, bound: finite(bound ?? -Infinity) });
      },
    });
    return outcomeOf(highs, model);
  } finally {
    model.dispose();
  }
}

function outcomeOf(highs: Highs, model: Model): Outcome {
  const { modelStatus } = highs.constants;
  const status = model.getModelStatus();
  const late = status === modelStatus.timeLimit;
  if (status === modelStatus.infeasible || status === modelStatus.unboundedOrInfeasible)
    return { status: "nothing fits", solution: null };
  if (!late && status !== modelStatus.optimal) throw new Error(`the solver ended with ${status}`);
  if (model.info.get("primal_solution_status") !== highs.constants.solutionStatus.feasible)
    return { status: "out of time", solution: null };
  return {
    status: late ? "out of time" : "solved",
    solution: [...model.getSolution().colValue],
    cost: model.getObjectiveValue(),
    bound: finite(Number(model.info.get("mip_dual_bound"))),
  };
}
