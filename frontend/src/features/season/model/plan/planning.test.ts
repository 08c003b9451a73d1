import { describe, expect, it } from "vitest";
import type { beginSolve, Found, Outcome } from "../../../../platform/solver";
import { answers, fakeEngine, refuses } from "../../../../records/fake-book";
import type { Asked } from "./book";
import { createPlanning } from "./planning";

const asked = {} as Asked;
const MODEL = { columns: [], rows: [] };
const found = (cost: number): Found => ({ solution: [cost], cost, bound: cost - 1 });

/** A solver that the test drives: it answers each model in its turn. */
function solver(...outcomes: (Outcome | Error | "wait")[]) {
  const stops: (() => void)[] = [];
  const tells: ((one: Found) => void)[] = [];
  const solve: typeof beginSolve = (_problem, _wish, tell = () => undefined) => {
    const next = outcomes.shift();
    tells.push(tell);
    if (next instanceof Error) return { outcome: Promise.reject(next), stop: () => undefined };
    if (next !== "wait" && next) return { outcome: Promise.resolve(next), stop: () => undefined };
    let end: (outcome: Outcome) => void = () => undefined;
    const outcome = new Promise<Outcome>((resolve) => {
      end = resolve;
    });
    const stop = () => end({ ...found(9), status: "out of time" });
    stops.push(stop);
    return { outcome, stop };
  };
  return { solve, stops, tells };
}

const gathered = answers("season.arguments");
/** What is read costs what its only value says. */
const engine = (more: Parameters<typeof fakeEngine>[0] = {}) =>
  fakeEngine({
    "season.arguments": gathered,
    "season.build": () => ({ ...answers("season.build", { model: MODEL, start: [] }), working: [] }),
    "season.read": ({ solution }) => answers("season.read", { weighed_cost: solution[0] ?? 0 }),
    ...more,
  });

const solved = (cost: number): Outcome => ({ ...found(cost), status: "solved" });

describe("a season planned on the phone", () => {
  it("shows the half-month plan, then the weekly one where that costs less", async () => {
    const { call, askedOf } = engine();
    const planning = createPlanning({ engine: { call }, solve: solver(solved(9), solved(7)).solve });
    await planning.run(asked);
    expect(planning.shown.value?.plan.weighed_cost).toBe(7);
    expect(askedOf("season.build").map(({ wishes }) => wishes.grid)).toEqual(["half_month", "weekly"]);
    expect(planning.busy.value).toBe(false);
  });

  it("keeps the first where the weekly one costs more", async () => {
    const planning = createPlanning({ engine: engine(), solve: solver(solved(7), solved(9)).solve });
    await planning.run(asked);
    expect(planning.shown.value?.plan.weighed_cost).toBe(7);
  });

  it("stopped by a person, stays with the best so far and looks no further", async () => {
    const { solve, stops } = solver("wait", solved(1));
    const { call, askedOf } = engine();
    const planning = createPlanning({ engine: { call }, solve });
    const run = planning.run(asked);
    await expect.poll(() => stops.length).toBe(1);
    planning.stop();
    await run;
    expect(planning.shown.value?.plan.weighed_cost).toBe(9);
    expect(askedOf("season.build")).toHaveLength(1);
    expect(askedOf("season.read").at(-1)?.stopped).toBe(true);
  });

  it("shows the first plan while the search goes on", async () => {
    const { solve, tells } = solver("wait");
    const planning = createPlanning({ engine: engine(), solve });
    const run = planning.run(asked);
    await expect.poll(() => tells.length).toBe(1);
    tells[0]?.(found(12));
    await expect.poll(() => planning.shown.value?.plan.weighed_cost).toBe(12);
    expect(planning.busy.value).toBe(true);
    expect(planning.progress.value).toEqual({ cost: 12, bound: 11 });
    planning.clear();
    await run;
    expect(planning.shown.value).toBeUndefined();
  });

  it("says which rules give where no plan can be", async () => {
    const nothing: Outcome = { status: "nothing fits", solution: null };
    const gives = [{ name: "locked|a", says: "The feed of p on a is locked.", by: 1 }];
    const bent = engine({
      "season.blocked": () => ({ ...answers("season.blocked", { model: MODEL, gives }), working: [] }),
    });
    const planning = createPlanning({ engine: bent, solve: solver(nothing, solved(1)).solve });
    await planning.run(asked);
    expect(planning.trouble.value).toMatchObject({ kind: "blocked", gives });
  });

  it("says that the solver is not there, and what the engine refuses", async () => {
    const away = createPlanning({ engine: engine(), solve: solver(new Error("offline")).solve });
    await away.run(asked);
    expect(away.trouble.value).toEqual({ kind: "no_solver" });
    const refused = createPlanning({
      engine: engine({ "season.arguments": refuses("Too many.") }),
      solve: solver().solve,
    });
    await refused.run(asked);
    expect(refused.trouble.value).toMatchObject({ kind: "refused" });
  });

  it("asks for no solver where there is nothing to plan", async () => {
    const bare = { ...gathered.value, plan: { ...gathered.value.plan, groups: [] } };
    const planning = createPlanning({
      engine: engine({ "season.arguments": answers("season.arguments", bare) }),
      solve: solver().solve,
    });
    await planning.run(asked);
    expect(planning.trouble.value?.kind).toBe("nothing_to_plan");
  });
});
