import { describe, expect, it } from "vitest";
import { fitted } from "./plan-picture";
import {
  canUndo,
  type Dot,
  dragged,
  newest,
  nextRing,
  noTrace,
  obstacles,
  pointing,
  ringDone,
  stepOf,
  type TraceForm,
  tapped,
  undone,
} from "./trace";

const traced = (...dots: Dot[]): TraceForm => dots.reduce(tapped, noTrace("m"));
const KNOWN: Dot[] = [
  [100, 500],
  [300, 500],
];
const CORNERS: Dot[] = [
  [10, 10],
  [90, 10],
  [90, 70],
];

describe("tracing a plan", () => {
  it("takes the first two taps for the known distance, the next ones for corners", () => {
    const form = traced(...KNOWN, ...CORNERS);
    expect(form.known).toEqual(KNOWN);
    expect(form.rings).toEqual([CORNERS]);
    expect(stepOf(traced(...KNOWN.slice(0, 1)))).toBe("known");
    expect(stepOf(form)).toBe("corners");
  });

  it("begins an obstacle once the ring before it encloses something", () => {
    expect(ringDone(traced(...KNOWN, ...CORNERS.slice(0, 2)))).toBe(false);
    const form = tapped(nextRing(traced(...KNOWN, ...CORNERS)), [40, 20]);
    expect(form.rings).toEqual([CORNERS, [[40, 20]]]);
    expect(obstacles(form)).toEqual([[[40, 20]]]);
    expect(obstacles(nextRing(traced(...KNOWN, ...CORNERS)))).toEqual([]);
  });

  it("takes back the last thing set, one at a time, down to nothing", () => {
    let form = tapped(nextRing(traced(...KNOWN, ...CORNERS)), [40, 20]);
    const left: number[] = [];
    while (canUndo(form)) {
      form = undone(form);
      left.push(form.known.length + form.rings.flat().length);
    }
    // Obstacle corner, the empty obstacle, three corners, two known points.
    expect(left).toEqual([5, 5, 4, 3, 2, 1, 0]);
  });

  it("drags a known point or a corner and leaves the others where they are", () => {
    const form = traced(...KNOWN, ...CORNERS);
    expect(dragged(form, { kind: "known", at: 1 }, [320.04, 500]).known).toEqual([KNOWN[0], [320, 500]]);
    const { rings } = dragged(form, { kind: "corner", ring: 0, at: 2 }, [88, 71.26]);
    expect(rings[0]).toEqual([CORNERS[0], CORNERS[1], [88, 71.3]]);
  });

  it("chooses what was set last", () => {
    expect(newest(traced(...KNOWN))).toEqual({ kind: "known", at: 1 });
    expect(newest(traced(...KNOWN, ...CORNERS))).toEqual({ kind: "corner", ring: 0, at: 2 });
    expect(newest(noTrace("m"))).toBeUndefined();
  });

  it("counts on one dot of the screen for a finger with a loupe", () => {
    expect(pointing({ ...noTrace("m"), width: 640 })).toBe(2);
    expect(pointing(noTrace("m"))).toBeUndefined();
  });
});

describe("a plan's picture", () => {
  it("is made no larger than 2,048 dots on its longer side, in proportion", () => {
    expect(fitted(4096, 2048)).toEqual({ width: 2048, height: 1024 });
    expect(fitted(1500, 3000)).toEqual({ width: 1024, height: 2048 });
  });

  it("is left as it is where it is small enough", () => {
    expect(fitted(800, 600)).toEqual({ width: 800, height: 600 });
  });
});
