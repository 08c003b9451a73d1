import { describe, expect, it, vi } from "vitest";
import { begin, type Solver } from "./client";
import type { Found, Outcome } from "./solving";

const problem = { columns: [], rows: [] };
const wish = { seconds: 10, gapShare: 0.01 };
const plan = (cost: number): Found => ({ solution: [cost], cost, bound: 1 });

/** A solver that does what the test says. */
function scripted() {
  let tell: (found: Found) => void = () => undefined;
  let answer: (outcome: Outcome) => void = () => undefined;
  let refuse: (why: Error) => void = () => undefined;
  let crash: (why: Error) => void = () => undefined;
  const stop = vi.fn();
  const spawn = (): Solver => ({
    solve: (_problem, _wish, heard) => {
      tell = heard;
      return new Promise((resolve, reject) => {
        answer = resolve;
        refuse = reject;
      });
    },
    onCrash: (heard) => {
      crash = heard;
    },
    stop,
  });
  return {
    spawn,
    stop,
    finds: (found: Found) => tell(found),
    answers: (outcome: Outcome) => answer(outcome),
    fails: (why: Error) => refuse(why),
    dies: () => crash(new Error("died")),
  };
}

describe("a solve on the phone", () => {
  it("ends its worker with its answer", async () => {
    const solver = scripted();
    const { outcome } = begin(solver.spawn, problem, wish);
    solver.answers({ ...plan(3), status: "solved" });
    expect(await outcome).toEqual({ ...plan(3), status: "solved" });
    expect(solver.stop).toHaveBeenCalledOnce();
  });

  it("stopped by a person, ends with the best so far and tells of nothing after", async () => {
    const solver = scripted();
    const told: number[] = [];
    const { outcome, stop } = begin(solver.spawn, problem, wish, ({ cost }) => void told.push(cost));
    solver.finds(plan(9));
    solver.finds(plan(7));
    stop();
    expect(await outcome).toEqual({ ...plan(7), status: "out of time" });
    solver.finds(plan(5));
    expect(told).toEqual([9, 7]);
    expect(solver.stop).toHaveBeenCalledOnce();
  });

  it("stopped before anything was found, says so", async () => {
    const { outcome, stop } = begin(scripted().spawn, problem, wish);
    stop();
    expect(await outcome).toEqual({ status: "out of time", solution: null });
  });

  it("a solver that dies with a plan found leaves the plan", async () => {
    const solver = scripted();
    const { outcome } = begin(solver.spawn, problem, wish);
    solver.finds(plan(4));
    solver.dies();
    expect(await outcome).toEqual({ ...plan(4), status: "out of time" });
  });

  it("one that cannot be read, or fails, is an error with its reason", async () => {
    const unread = scripted();
    const first = begin(unread.spawn, problem, wish);
    unread.dies();
    await expect(first.outcome).rejects.toThrow("died");
    const failing = scripted();
    const second = begin(failing.spawn, problem, wish);
    failing.fails(new Error("out of memory"));
    await expect(second.outcome).rejects.toThrow("out of memory");
    expect(failing.stop).toHaveBeenCalledOnce();
  });
});
