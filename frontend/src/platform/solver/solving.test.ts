import loadHighs from "highs";
import { describe, expect, it, vi } from "vitest";
import { type Found, type Problem, solve } from "./solving";

const highs = await loadHighs();
const bit = (cost: number) => ({ low: 0, high: 1, cost, integer: true });
const wish = { seconds: 20, gapShare: 0 };
const nobody = () => undefined;

/** Every choice of yes and no, counted out: the cheapest that keeps all rows. */
function cheapest({ columns, rows }: Problem): number {
  let best = Infinity;
  for (let choice = 0; choice < 2 ** columns.length; choice++) {
    const x = columns.map((_, at) => (choice >> at) & 1);
    const sum = (terms: readonly (readonly [number, number])[]) =>
      terms.reduce((all, [column, times]) => all + times * (x[column] as number), 0);
    const kept = rows.every(({ low, high, terms }) => {
      const total = sum(terms);
      return total >= (low ?? -Infinity) - 1e-9 && total <= (high ?? Infinity) + 1e-9;
    });
    if (kept) best = Math.min(best, sum(columns.map(({ cost }, at) => [at, cost])));
  }
  return best;
}

/** The same numbers each time: the low bits of a linear congruence. */
function numbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1103515245 + 12345) % 2147483648;
    return state / 2147483648;
  };
}

function knapsack(seed: number): Problem {
  const next = numbers(seed);
  const columns = Array.from({ length: 9 }, () => bit(1 + Math.floor(20 * next())));
  const rows = [0, 1, 2].map(() => ({
    low: 8 + Math.floor(8 * next()),
    high: null,
    terms: columns.map((_, at) => [at, Math.floor(6 * next())] as const),
  }));
  return { columns, rows };
}

describe("the solver on the phone", () => {
  it.each([1, 2, 3, 4, 5, 6, 7, 8])("finds the cheapest of all 512 choices (%i)", (seed) => {
    const problem = knapsack(seed);
    const best = cheapest(problem);
    const outcome = solve(highs, problem, wish, nobody);
    if (best === Infinity) return expect(outcome).toEqual({ status: "nothing fits", solution: null });
    if (outcome.solution === null) throw new Error(outcome.status);
    expect(outcome.status).toBe("solved");
    expect(outcome.cost).toBeCloseTo(best, 6);
    expect(outcome.bound).toBeCloseTo(best, 6);
    expect(outcome.solution).toHaveLength(9);
  });

  it("says that nothing fits", () => {
    const problem = { columns: [bit(1)], rows: [{ low: 2, high: null, terms: [[0, 1]] as const }] };
    expect(solve(highs, problem, wish, nobody)).toEqual({ status: "nothing fits", solution: null });
  });

  it("tells of plans on the way, none worse than the start and the last the answer", () => {
    const problem = knapsack(3);
    const start = problem.columns.map(() => 1);
    const found: Found[] = [];
    const outcome = solve(highs, problem, { ...wish, start }, (one) => void found.push(one));
    const all = problem.columns.reduce((sum, { cost }) => sum + cost, 0);
    expect(found.length).toBeGreaterThan(0);
    expect(Math.max(...found.map(({ cost }) => cost))).toBeLessThanOrEqual(all + 1e-6);
    expect(outcome.solution).toEqual(found.at(-1)?.solution);
  });

  it("out of time at once, it gives the start back where it has one and nothing where not", () => {
    const problem = knapsack(3);
    const start = problem.columns.map(() => 1);
    expect(solve(highs, problem, { seconds: 0, gapShare: 0, start }, nobody)).toMatchObject({
      status: "out of time",
      solution: start,
    });
    expect(solve(highs, problem, { seconds: 0, gapShare: 0 }, nobody).status).toBe("out of time");
  });

  it("does not believe a cost that its values do not have: it begins again without the start", () => {
    const problem = knapsack(3);
    const start = problem.columns.map(() => 1);
    const honest = highs.createModel.bind(highs);
    let models = 0;
    const starts: number[] = [];
    vi.spyOn(highs, "createModel").mockImplementation(((data: never) => {
      const model = honest(data);
      const mine = models++;
      const told = model.getObjectiveValue.bind(model);
      model.getObjectiveValue = () => told() - (mine === 0 ? 5 : 0);
      const set = model.setSolution.bind(model);
      model.setSolution = (given) => {
        starts.push(mine);
        return set(given);
      };
      return model;
    }) as never);
    const outcome = solve(highs, problem, { ...wish, start }, nobody);
    expect([models, starts]).toEqual([2, [0]]);
    expect(outcome.solution && outcome.cost).toBeCloseTo(cheapest(problem), 6);
  });

  it("leaves nothing of a model in the solver's memory, not even of one that fails", () => {
    const made = vi.spyOn(highs, "createModel");
    solve(highs, knapsack(5), wish, nobody);
    const stumble = () => {
      throw new Error("stumbled");
    };
    expect(() => solve(highs, knapsack(3), wish, stumble)).toThrow("stumbled");
    expect(made.mock.results).toHaveLength(2);
    for (const { value: model } of made.mock.results) expect(() => model.run()).toThrow(/dispos/i);
  });
});
