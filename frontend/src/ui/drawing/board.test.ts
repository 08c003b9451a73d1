import { describe, expect, it } from "vitest";
import {
  BOARD,
  fitPicture,
  fromBoard,
  inSight,
  nearest,
  panned,
  type Spot,
  toBoard,
  viewOn,
  zoomed,
} from "./board";

const FIELD: Spot[] = [
  [0, 0],
  [20, 0],
  [20, 10],
  [0, 10],
];

describe("the board", () => {
  it("shows all of a plan with room for a finger round it", () => {
    const view = viewOn(FIELD, 1);
    for (const corner of FIELD) {
      const [x, y] = toBoard(view, corner);
      expect(Math.min(x, y, BOARD.wide - x, BOARD.tall - y)).toBeGreaterThanOrEqual(24);
    }
  });

  it("draws up as up for metres and down for a picture", () => {
    const plan = viewOn(FIELD, 1);
    expect(toBoard(plan, [0, 10])[1]).toBeLessThan(toBoard(plan, [0, 0])[1]);
    const picture = fitPicture(200, 100);
    expect(toBoard(picture, [0, 100])[1]).toBeGreaterThan(toBoard(picture, [0, 0])[1]);
  });

  it.each([viewOn(FIELD, 1), fitPicture(2048, 1000)])("finds its way back from the board", (view) => {
    const [x, y] = fromBoard(view, toBoard(view, [3.25, 7.5]));
    expect(x).toBeCloseTo(3.25, 9);
    expect(y).toBeCloseTo(7.5, 9);
  });

  it("keeps the place looked nearer at where it is", () => {
    const view = viewOn(FIELD, 1);
    const before = toBoard(view, [20, 10]);
    const after = toBoard(zoomed(view, 1.5, [20, 10]), [20, 10]);
    expect(after[0]).toBeCloseTo(before[0], 9);
    expect(after[1]).toBeCloseTo(before[1], 9);
  });

  it.each([viewOn(FIELD, 1), fitPicture(400, 300)])("moves the plan with the finger", (view) => {
    const [x, y] = toBoard(view, [5, 5]);
    const [mx, my] = toBoard(panned(view, 12, -7), [5, 5]);
    expect(mx - x).toBeCloseTo(12, 9);
    expect(my - y).toBeCloseTo(-7, 9);
  });

  it("takes hold of the nearest within reach and of nothing beyond", () => {
    const spots: Spot[] = [
      [10, 10],
      [40, 10],
    ];
    expect(nearest(spots, [28, 10])).toBe(1);
    expect(nearest(spots, [100, 100])).toBe(-1);
  });

  it("knows what has left it", () => {
    const view = viewOn(FIELD, 1);
    expect(inSight(view, [10, 5])).toBe(true);
    expect(inSight(view, [200, 5])).toBe(false);
  });
});
