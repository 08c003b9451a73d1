import { cleanup, render, screen } from "@testing-library/preact";
import { afterEach, describe, expect, it } from "vitest";
import { roundLength } from "../../../format";
import type { Point } from "../../../ui/drawing/zone-shape";
import { RouteDrawing } from "./plan-drawing";
import { along, frameOf, northOf, type PlanRow, rowsAt, sayRow } from "./plan-shape";

afterEach(cleanup);

const ROOM = { wide: 340, high: 168, margin: 8 };
const SQUARE: Point[] = [
  [0, 0],
  [20, 0],
  [20, 10],
  [0, 10],
];
/** A tall ground: 10 wide, 40 long. */
const TALL: Point[] = [
  [0, 0],
  [10, 0],
  [10, 40],
  [0, 40],
];

function strips(n: number, zone_id = "kitchen", from = 1): PlanRow[] {
  return Array.from({ length: n }, (_, k) => ({
    zone_id,
    kind: "strip",
    number: from + k,
    length_m: 10,
    points_m: (k % 2
      ? [
          [k + 1, 10],
          [k + 1, 0],
        ]
      : [
          [k + 1, 0],
          [k + 1, 10],
        ]) as Point[],
  }));
}

const KITCHEN = {
  id: "kitchen",
  name: "Kitchen lawn",
  outline: { points_m: SQUARE, holes_m: [], north_deg: 0 },
};
const VERGE = { id: "verge", name: "Street verge" };

function drawn(over: Partial<Parameters<typeof RouteDrawing>[0]> = {}) {
  return render(
    <RouteDrawing zones={[KITCHEN, VERGE]} rows={strips(14)} at={4} pass={1} swath_m={1.5} {...over} />,
  );
}

const title = () => screen.getByRole("img").querySelector("title")?.textContent;

describe("where the ground lies on the paper", () => {
  it("keeps one scale both ways and up as up", () => {
    const frame = frameOf(SQUARE, ROOM);
    const [a, b] = [frame?.place([0, 0]), frame?.place([20, 10])] as [Point, Point];
    // 20 m over 340 less two margins would be 16.2 px a metre; 10 m over 152 px is less: 15.2.
    expect(frame?.scale).toBeCloseTo(15.2, 9);
    expect(b[0] - a[0]).toBeCloseTo(20 * 15.2, 6);
    expect(a[1] - b[1]).toBeCloseTo(10 * 15.2, 6);
    expect(b[1]).toBeCloseTo(8, 6);
  });

  it("turns a tall ground on its side where that draws it larger, and the north mark with it", () => {
    const frame = frameOf(TALL, ROOM);
    expect(frame?.turned).toBe(true);
    expect(frame?.scale).toBeCloseTo(Math.min(324 / 40, 152 / 10), 9);
    const [low, high] = [frame?.place([0, 0]), frame?.place([0, 40])] as [Point, Point];
    // What was up now points right, so north (up) points right too.
    expect(high[0]).toBeGreaterThan(low[0]);
    expect(high[1]).toBeCloseTo(low[1], 6);
    expect(frame && northOf({ points_m: TALL, north_deg: 0 }, frame)).toBe(90);
  });

  it("turns north against the bearing of the ground's own up", () => {
    const frame = frameOf(SQUARE, ROOM);
    // Up lies east (bearing 90), so north lies to the left.
    expect(frame && northOf({ points_m: SQUARE, north_deg: 90 }, frame)).toBe(-90);
    expect(frame && northOf({ points_m: SQUARE }, frame)).toBeNull();
  });

  it("has no frame for points that enclose nothing", () => {
    expect(frameOf(SQUARE.slice(0, 2), ROOM)).toBeNull();
    expect(
      frameOf(
        [
          [0, 0],
          [1, 0],
          [2, 0],
        ],
        ROOM,
      ),
    ).toBeNull();
  });

  it("finds the way a line runs part of the way along", () => {
    const line: Point[] = [
      [0, 0],
      [10, 0],
      [10, 10],
    ];
    expect(along(line, 0.25)).toEqual({ at: [5, 0], angle: 90 });
    expect(along(line, 0.75)).toEqual({ at: [10, 5], angle: 180 });
    expect(along([[1, 1]], 0.5)).toBeNull();
  });
});

describe("where a walk stands among the rows", () => {
  const rows = [...strips(3, "kitchen"), ...strips(2, "verge", 4)];

  it("shows the zone being walked, and counts within it", () => {
    const here = rowsAt(rows, 5);
    expect([here.zone_id, here.done, here.now?.number]).toEqual(["verge", 1, 5]);
    expect(here.now && sayRow(here.rows, here.now)).toBe("strip 2 of 2");
  });

  it("shows the first zone before the walk and the last after it", () => {
    expect(rowsAt(rows, 0)).toMatchObject({ zone_id: "kitchen", done: 0, now: null });
    expect(rowsAt(rows, 6)).toMatchObject({ zone_id: "verge", done: 2, now: null });
  });
});

describe("the drawn plan", () => {
  it("says what is drawn and where the walk stands", () => {
    drawn();
    expect(title()).toBe(
      "Kitchen lawn from above, to scale. Pass 1: 3 of 14 rounds and strips walked, now strip 4 of 14",
    );
  });

  it("marks one strip alone in the signal colour, with an arrow the way it is walked", () => {
    const { container } = drawn({ at: 2 });
    expect(container.querySelectorAll(".plan-now")).toHaveLength(1);
    // The second strip runs back down.
    expect(container.querySelector(".plan-arrow")?.getAttribute("transform")).toContain("rotate(180.0)");
  });

  it("marks none before the first strip and none after the last", () => {
    const { container, rerender } = drawn({ at: 0 });
    expect(container.querySelector(".plan-now")).toBeNull();
    expect(container.querySelector(".plan-done")?.getAttribute("d")).toBe("");
    rerender(<RouteDrawing zones={[KITCHEN]} rows={strips(14)} at={15} pass={1} swath_m={1.5} />);
    expect(container.querySelector(".plan-now")).toBeNull();
    expect(title()).toContain("14 of 14 rounds and strips walked, all walked");
  });

  it("hatches a pass in its own way, over the faint hatch of the passes before it", () => {
    const { container } = drawn({ pass: 3 });
    const earlier = [...container.querySelectorAll(".plan-earlier path")].map((at) =>
      at.getAttribute("fill"),
    );
    const own = container.querySelector(".plan-band[stroke]")?.getAttribute("stroke");
    expect(new Set([...earlier, own]).size).toBe(3);
  });

  it("draws strips as wide as the swath at the drawing's scale", () => {
    const { container } = drawn();
    const style = container.querySelector("g[clip-path]")?.getAttribute("style") ?? "";
    // 20 m over 340 px less two margins: 16.2 px a metre; 1.5 m, drawn a little narrower so that neighbours stay apart.
    expect(Number(/--band:\s*([\d.]+)px/.exec(style)?.[1])).toBeCloseTo(16.2 * 1.5 * 0.84, 6);
  });

  it("lays the plan out once, however many strips are counted", () => {
    let read = 0;
    const rows = strips(80).map((row) => {
      const { points_m, ...rest } = row;
      return Object.defineProperty({ ...rest } as PlanRow, "points_m", {
        get: () => {
          read += 1;
          return points_m;
        },
      });
    });
    const zones = [KITCHEN];
    const at = (number: number) => (
      <RouteDrawing zones={zones} rows={rows} at={number} pass={1} swath_m={1.5} />
    );
    const { rerender } = render(at(1));
    expect(read).toBeGreaterThanOrEqual(80);
    read = 0;
    for (let number = 2; number <= 11; number += 1) rerender(at(number));
    // Only the arrow's own strip and the flag's are read again, not all eighty.
    expect(read).toBeLessThanOrEqual(10 * 2);
  });

  it("draws obstacles, a start flag, the scale and north", () => {
    const outline = { ...KITCHEN.outline, circles_m: [{ x_m: 5, y_m: 5, radius_m: 1 }] };
    const { container } = drawn({
      zones: [{ ...KITCHEN, outline }],
      scale: (most) => roundLength(most, "metric"),
    });
    expect(container.querySelector(".plan-hole")?.getAttribute("d")).toContain("a16.2 16.2");
    expect(container.querySelector(".plan-start")).not.toBeNull();
    expect(container.querySelector(".plan-north")?.textContent).toBe("N");
    expect(container.querySelector(".zone-scale")?.textContent?.replace("\u00a0", " ")).toBe("5 m");
  });

  it("numbers the strips where there is room for it", () => {
    const { container, rerender } = drawn({ size: "large" });
    expect(container.querySelectorAll(".plan-numerals text")).toHaveLength(14);
    rerender(<RouteDrawing zones={[KITCHEN]} rows={strips(14)} at={1} pass={1} swath_m={0.5} size="large" />);
    expect(container.querySelector(".plan-numerals")).toBeNull();
  });

  it("says so where a zone has no outline", () => {
    const rows: PlanRow[] = [{ zone_id: "verge", kind: "whole", number: 1, points_m: null, length_m: null }];
    drawn({ rows, at: 1 });
    expect(screen.queryByRole("img")).toBeNull();
    expect(screen.getByText(/Street verge has no outline yet/)).toBeTruthy();
  });
});

describe("ground that gets no more", () => {
  const out = strips(2).map(({ zone_id, points_m }) => ({ zone_id, points_m }));
  const lattice = () => document.querySelector(".plan-out");

  it("is drawn with a lattice of its own and named in words", () => {
    drawn({ out, pass: 2, at: 1 });
    expect(lattice()?.getAttribute("d")?.match(/M/g)).toHaveLength(2);
    const id = /#(.+)\)/.exec(lattice()?.getAttribute("stroke") ?? "")?.[1];
    expect(document.getElementById(id ?? "")?.querySelector(".plan-out-line")).not.toBeNull();
    expect(document.querySelector(".plan-out-words")?.textContent).toBe("No more here");
    expect(title()).toContain("The ground under the lattice gets no more");
  });

  it("of another zone, or without corners, is not drawn", () => {
    drawn({
      out: [
        { zone_id: "verge", points_m: out[0]?.points_m ?? null },
        { zone_id: "kitchen", points_m: null },
      ],
    });
    expect(lattice()).toBeNull();
    expect(document.querySelector(".plan-out-words")).toBeNull();
  });
});

describe("ground that stays clear of water", () => {
  const ground_m: Point[][] = [
    [
      [0, 3],
      [20, 3],
      [20, 10],
      [0, 10],
    ],
  ];
  const band = () =>
    [...document.querySelectorAll("path")].find((one) => one.getAttribute("fill")?.startsWith("url(#o"));

  it("is drawn as a band, between the edge and the ground its strips lie on, and said in words", () => {
    drawn({ clear: [{ zone_id: "kitchen", ground_m }] });
    expect(band()?.getAttribute("d")?.match(/M/g)).toHaveLength(2);
    expect(band()?.getAttribute("fill-rule")).toBe("evenodd");
    expect(title()).toContain("The band at the water stays clear");
    expect(screen.getByText("Water: keep clear")).toBeTruthy();
  });

  it("is not drawn in another zone, nor where none is", () => {
    drawn({ clear: [{ zone_id: "verge", ground_m }] });
    expect(band()).toBeUndefined();
    expect(title()).not.toContain("water");
    expect(screen.queryByText("Water: keep clear")).toBeNull();
  });
});
