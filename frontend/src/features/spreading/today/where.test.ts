// @vitest-environment happy-dom
import { describe, expect, it } from "vitest";
import { sayWhere, type Where } from "./where";

const PLAN = { passes: 2, dial: { lowest: 1, highest: 24, step: 0.5 } } as Where["plan"];
const at = (part: object): Where =>
  ({
    step: "yard",
    plan: PLAN,
    pass: { number: 1, dial: 9.5, done: 3, rows: Array(14).fill({}) },
    ...part,
  }) as Where;

describe("where a walk stands", () => {
  it.each([
    ["before it is loaded", { plan: null, pass: null, step: "aim" }, "Nothing is down yet."],
    ["among the strips", {}, "Pass 1 of 2 at dial 9.5, 3 of 14 strips done."],
    ["without strips", { pass: { number: 2, dial: 7 } }, "Pass 2 of 2 at dial 7."],
    ["past the passes planned", { pass: { number: 3, dial: 7 } }, "Pass 3 of 3 at dial 7."],
    ["stepped back from a pass not begun", { step: "next", pass: null }, "Between two passes."],
    ["between passes", { step: "next" }, "Pass 1 of 2 is saved."],
    [
      "stopped for the night",
      { stopped_at: "2026-05-14T20:15:00+02:00" },
      "Pass 1 of 2 at dial 9.5, 3 of 14 strips done. Stopped on 14 May 2026, 8:15 pm.",
    ],
  ])("is said %s", (_, part, says) => expect(sayWhere(at(part))).toBe(says));
});
