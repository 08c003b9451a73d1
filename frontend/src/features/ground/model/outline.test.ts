import { describe, expect, it } from "vitest";
import {
  type Corner,
  edgesAtWater,
  fewer,
  formOfOutline,
  type Handle,
  handlesOf,
  marked,
  moved,
  outlineArgs,
  outlineRecord,
  placeOf,
  rectangle,
  removable,
  sayHandle,
  withCircle,
  withCorner,
  withObstacle,
  without,
} from "./outline";

const FIELD = rectangle(20, 10);
const corner = (ring: number, at: number): Handle => ({ kind: "corner", ring, at });

describe("an outline by hand", () => {
  it("begins as a rectangle of two lengths", () => {
    expect(FIELD.points).toEqual([
      [0, 0],
      [20, 0],
      [20, 10],
      [0, 10],
    ]);
  });

  it("moves a corner to the centimetre and leaves the rest", () => {
    const { points } = moved(FIELD, corner(0, 2), [18.126, 11]);
    expect(points).toEqual([
      [0, 0],
      [20, 0],
      [18.13, 11],
      [0, 10],
    ]);
  });

  it("adds a corner half way along an edge, the last edge too", () => {
    expect(withCorner(FIELD, 0, 1).points[2]).toEqual([20, 5]);
    expect(withCorner(FIELD, 0, 3).points[4]).toEqual([0, 5]);
  });

  it("keeps three corners of the ground", () => {
    const three = without(FIELD, corner(0, 0));
    expect(three.points).toHaveLength(3);
    expect(removable(three, corner(0, 0))).toBe(false);
    expect(without(three, corner(0, 0))).toBe(three);
  });

  it("takes an obstacle away whole once two corners would be left of it", () => {
    let form = withObstacle(FIELD, [5, 5], 1);
    expect(form.holes[0]).toHaveLength(4);
    form = without(form, corner(1, 0));
    form = without(form, corner(1, 0));
    expect(form.holes).toEqual([]);
  });

  it("moves a round obstacle by its middle and sizes it by its edge", () => {
    const form = withCircle(FIELD, [5, 5], 1);
    const aside = moved(form, { kind: "middle", circle: 0 }, [6, 4]);
    expect(aside.circles[0]).toEqual({ x_m: 6, y_m: 4, radius_m: 1 });
    // A 3-4-5 triangle from the middle to the finger.
    const wider = moved(aside, { kind: "edge", circle: 0 }, [9, 8]);
    expect(wider.circles[0]).toEqual({ x_m: 6, y_m: 4, radius_m: 5 });
    expect(placeOf(wider, { kind: "edge", circle: 0 })).toEqual([11, 4]);
  });

  it("moves an obstacle as a whole, and takes it away as a whole", () => {
    const form = withObstacle(FIELD, [5, 5], 1);
    const aside = moved(form, { kind: "whole", ring: 1 }, [8, 4]);
    expect(aside.holes[0]).toEqual([
      [7, 3],
      [9, 3],
      [9, 5],
      [7, 5],
    ]);
    expect(without(aside, { kind: "whole", ring: 1 }).holes).toEqual([]);
  });

  it("names every handle", () => {
    const form = withCircle(withObstacle(FIELD, [5, 5], 1), [12, 5], 1);
    const names = handlesOf(form).map((handle) => sayHandle(form, handle));
    expect(names[0]).toBe("Corner 1 of 4");
    expect(names.slice(4, 6)).toEqual(["Obstacle 1, all of it", "Obstacle 1, corner 1 of 4"]);
    expect(names.slice(-2)).toEqual(["Round obstacle 1, middle", "Round obstacle 1, edge"]);
  });

  it("asks the engine with what there is and nothing more", () => {
    expect(outlineArgs(FIELD)).toEqual({ points_m: FIELD.points });
    expect(outlineArgs(withCircle(FIELD, [5, 5], 1))).toMatchObject({
      circles_m: [{ x_m: 5, y_m: 5, radius_m: 1 }],
    });
  });

  it("keeps round obstacles round, so that they can be mended again", () => {
    const form = { ...withCircle(FIELD, [5, 5], 1), north: 90 };
    const record = outlineRecord(form);
    expect(record).toEqual({
      points_m: FIELD.points,
      holes_m: [],
      circles_m: [{ x_m: 5, y_m: 5, radius_m: 1 }],
      north_deg: 270,
    });
    expect(formOfOutline(record)).toEqual(form);
  });

  it("turns the bearing of up into the north mark and back", () => {
    const form = formOfOutline({ points_m: FIELD.points, north_deg: 30 });
    expect(form.north).toBe(330);
    expect(outlineRecord(form).north_deg).toBe(30);
    expect(outlineRecord(formOfOutline({ points_m: FIELD.points })).north_deg).toBeNull();
  });
});

describe("a walked ring with fewer corners", () => {
  it("keeps the corners and lets go of points along the edges", () => {
    const along: Corner[] = [];
    for (let x = 0; x < 20; x += 1) along.push([x, x % 2 ? 0.2 : 0]);
    for (let y = 0; y < 10; y += 1) along.push([20, y]);
    for (let x = 20; x > 0; x -= 1) along.push([x, 10]);
    for (let y = 10; y > 0; y -= 1) along.push([0, y]);
    expect(fewer(along, 0.5)).toEqual([
      [0, 0],
      [20, 0],
      [20, 10],
      [0, 10],
    ]);
  });

  it("never makes less than a triangle of it", () => {
    const thin: Corner[] = [
      [0, 0],
      [10, 0.1],
      [20, 0],
      [10, -0.1],
    ];
    expect(fewer(thin, 0.5).length).toBeGreaterThanOrEqual(3);
  });
});

describe("edges at the water", () => {
  const square = { ...rectangle(20, 12), water: { corners: 4, edges: [1] } };

  it("stay where they are while a corner moves", () => {
    const form = moved(square, { kind: "corner", ring: 0, at: 1 }, [22, 1]);
    expect(edgesAtWater(form.water, form.points.length)).toEqual([1]);
  });

  it("lie on both halves of an edge that is cut, and move on with those behind it", () => {
    expect(withCorner(square, 0, 1).water).toEqual({ corners: 5, edges: [1, 2] });
    expect(withCorner(square, 0, 0).water).toEqual({ corners: 5, edges: [2] });
    expect(withCorner(square, 0, 3).water).toEqual({ corners: 5, edges: [1] });
  });

  it("lie on what two edges become once the corner between them is gone", () => {
    const at = (corner: number) => without(square, { kind: "corner", ring: 0, at: corner }).water;
    expect(at(1)).toEqual({ corners: 3, edges: [0] });
    expect(at(2)).toEqual({ corners: 3, edges: [1] });
    expect(at(0)).toEqual({ corners: 3, edges: [0] });
    const last = { ...square, water: { corners: 4, edges: [0] } };
    expect(without(last, { kind: "corner", ring: 0, at: 0 }).water).toEqual({ corners: 3, edges: [2] });
  });

  it("hold for the outline they were marked on, not for one of other corners", () => {
    expect(edgesAtWater({ corners: 4, edges: [1] }, 5)).toEqual([]);
    expect(marked({ corners: 4, edges: [1] }, 5, [3], true)).toEqual({ corners: 5, edges: [3] });
    expect(marked({ corners: 4, edges: [1, 2] }, 4, [2], false)).toEqual({ corners: 4, edges: [1] });
  });
});
