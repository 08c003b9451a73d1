import { describe, expect, it } from "vitest";
import {
  extent,
  groundOutlines,
  offsetsOutline,
  partOutline,
  partsOutlines,
  radiiOutline,
} from "./zone-shape";

describe("drawn ground", () => {
  it("keeps a rectangle's measures", () => {
    expect(extent(partsOutlines([{ shape: "rectangle", length_m: 12, width_m: 5 }]))).toEqual({
      wide: 12,
      tall: 5,
    });
  });

  it("draws a circle as wide as two radii", () => {
    const { wide, tall } = extent(partsOutlines([{ shape: "circle", radius_m: 3 }]));
    expect(wide).toBeCloseTo(6, 1);
    expect(tall).toBeCloseTo(6, 1);
  });

  it("closes a 3-4-5 triangle with its height over the longest side", () => {
    const points = partOutline({ shape: "triangle", a_m: 5, b_m: 4, c_m: 3 });
    // The height over the hypotenuse of a right triangle is the product of the legs over it.
    expect(Math.max(...points.map(([, y]) => y))).toBeCloseTo((4 * 3) / 5, 9);
  });

  it("draws nothing for three sides that do not meet", () => {
    expect(partOutline({ shape: "triangle", a_m: 10, b_m: 2, c_m: 3 })).toEqual([]);
  });

  it("leaves out parts that are still half typed", () => {
    const drawn = partsOutlines([
      { shape: "rectangle", length_m: 4 },
      { shape: "circle", radius_m: 1 },
    ]);
    expect(drawn).toHaveLength(1);
  });

  it("marks cut-outs and lays parts clear of each other", () => {
    const [ground, cut] = partsOutlines([
      { shape: "rectangle", length_m: 10, width_m: 4 },
      { shape: "rectangle", length_m: 2, width_m: 2, add: false },
    ]);
    expect(ground?.cut).toBe(false);
    expect(cut?.cut).toBe(true);
    expect(Math.min(...(cut?.points.map(([x]) => x) ?? []))).toBeGreaterThan(10);
  });

  it("draws offsets along their base line", () => {
    expect(extent(offsetsOutline(3, [0, 4, 6, 0]))).toEqual({ wide: 9, tall: 6 });
    expect(offsetsOutline(3, [0, 0])).toEqual([]);
    expect(extent(offsetsOutline(3, [4, 6], "sum"))).toEqual({ wide: 6, tall: 6 });
  });

  it("draws four equal radii as a square on its corner", () => {
    const { wide, tall } = extent(radiiOutline([5, 5, 5, 5]));
    expect(wide).toBeCloseTo(10, 9);
    expect(tall).toBeCloseTo(10, 9);
  });

  it("keeps what is cut out where it lies, up being up on the paper", () => {
    const [ground, bed, tree] = groundOutlines({
      points_m: [
        [-5, 0],
        [15, 0],
        [15, 10],
        [-5, 10],
      ],
      holes_m: [
        [
          [0, 1],
          [2, 1],
          [2, 3],
        ],
      ],
      circles_m: [{ x_m: 10, y_m: 8, radius_m: 1 }],
    });
    expect(extent(ground ? [ground] : [])).toEqual({ wide: 20, tall: 10 });
    // One metre above the lower edge is nine below the upper one.
    expect(bed?.points[0]).toEqual([5, 9]);
    expect([bed?.cut, tree?.cut]).toEqual([true, true]);
    const ys = tree?.points.map(([, y]) => y) ?? [];
    expect(Math.min(...ys)).toBeCloseTo(1, 2);
    expect(Math.max(...ys)).toBeCloseTo(3, 2);
  });
});
