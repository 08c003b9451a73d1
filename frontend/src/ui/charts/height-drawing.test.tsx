import { cleanup, render, screen } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import { HeightDrawing, type HeightDrawingProps, HeightLegend } from "./height-drawing";

afterEach(cleanup);

const CUTS = [
  { id: "two", day: "2026-05-10", before_mm: 120, after_mm: 76, lowest_mm: 80 },
  { id: "one", day: "2026-05-03", before_mm: 110, after_mm: 76, lowest_mm: 73.33 },
];
const AHEAD = [
  { date: "2026-05-14", low: 90, mid: 95, high: 100 },
  { date: "2026-05-20", low: 110, mid: 125, high: 140 },
];

const draw = (props: Partial<HeightDrawingProps> = {}) =>
  render(
    <HeightDrawing
      cuts={CUTS}
      ahead={AHEAD}
      today="2026-05-14"
      target_mm={76}
      mow_at_mm={114}
      write={(mm) => String(Math.round(mm))}
      factor={1}
      unit="mm"
      writeDay={(date) => date.slice(5)}
      {...props}
    />,
  ).container;

const numbers = (one: Element | null | undefined, ...names: string[]) =>
  names.map((name) => Number(one?.getAttribute(name)));

describe("the drawing of a zone's heights", () => {
  it("draws each cut from the height before down to the height after, older ones to the left", () => {
    const taken = [...draw().querySelectorAll(".height-cut .height-taken")];
    const [older, newer] = taken.map((line) => numbers(line, "x1", "y1", "y2"));
    expect(taken).toHaveLength(2);
    expect(older?.[0]).toBeLessThan(newer?.[0] ?? 0);
    // Down on paper is a larger y; the taller grass stood higher before, both were cut to one height.
    expect(older?.[1]).toBeGreaterThan(newer?.[1] ?? 0);
    expect(older?.[1]).toBeLessThan(older?.[2] ?? 0);
    expect(older?.[2]).toBeCloseTo(newer?.[2] ?? 0, 9);
    const [point] = document.querySelectorAll(".height-cut circle");
    expect(older?.[2]).toBeCloseTo(numbers(point, "cy")[0] ?? 0, 9);
  });

  it("marks the two thirds: under the cut that kept to the rule's side, above one that took more", () => {
    const marks = [...draw().querySelectorAll(".height-cut")].map((cut) => {
      const [third] = numbers(cut.querySelector(".height-third"), "y1");
      const [after] = numbers(cut.querySelector("circle"), "cy");
      return (third ?? 0) > (after ?? 0) ? "below" : "above";
    });
    expect(marks).toEqual(["below", "above"]);
  });

  it("joins what grew between two cuts, and since the last one", () => {
    const container = draw();
    expect(container.querySelectorAll(".height-grown")).toHaveLength(1);
    expect(container.querySelectorAll(".height-since")).toHaveLength(1);
  });

  it("draws the coming days as a band, with both levels, and says that all of it is listed", () => {
    const container = draw();
    expect(container.querySelectorAll(".height-band, .height-mid")).toHaveLength(2);
    const [mowAt, target] = [".height-mow-at", ".height-target"].map((one) => container.querySelector(one));
    expect(numbers(mowAt, "y1")[0]).toBeLessThan(numbers(target, "y1")[0] ?? 0);
    expect(screen.getByRole("img").querySelector("title")?.textContent).toBe(
      "Height of the grass over time, 2 cuts and the coming days; the same figures are listed below",
    );
  });

  it("draws a height read without a cut as a diamond, grown up to and on from it", () => {
    const container = draw({ looks: [{ id: "look", day: "2026-05-12", height_mm: 88 }] });
    expect(container.querySelectorAll(".height-look")).toHaveLength(1);
    // Between the cuts, and from the last one to the height; from there on to what is expected.
    expect(container.querySelectorAll(".height-grown")).toHaveLength(2);
    const from = container
      .querySelector(".height-since")
      ?.getAttribute("d")
      ?.match(/^M([\d.]+) ([\d.]+)/);
    const mark = container
      .querySelector(".height-look")
      ?.getAttribute("d")
      ?.match(/^M([\d.]+) ([\d.]+)/);
    expect(Number(from?.[1])).toBeCloseTo(Number(mark?.[1]), 1);
    expect(Number(from?.[2])).toBeCloseTo(Number(mark?.[2]) + 6, 1);
    expect(screen.getByRole("img").querySelector("title")?.textContent).toContain(
      "2 cuts, 1 more height and",
    );
  });

  it("writes its numerals as large as the page's letters ask for, with room for them", () => {
    document.documentElement.style.fontSize = "32px";
    const room = vi.spyOn(SVGElement.prototype, "getBoundingClientRect");
    room.mockReturnValue({ width: 328 } as DOMRect);
    const container = draw();
    return vi
      .waitFor(() => expect(container.querySelector("svg")?.style.getPropertyValue("--letters")).toBe("24px"))
      .then(() => {
        const [left] = numbers(container.querySelector(".axes-rule"), "x1");
        expect(left).toBe(72);
        const dates = [...container.querySelectorAll(".axes text")].filter(
          (one) => one.getAttribute("text-anchor") === "middle",
        );
        const at = dates.map((one) => numbers(one, "x")[0] ?? 0).sort((a, b) => a - b);
        for (const [k, one] of at.slice(1).entries()) expect(one - (at[k] ?? 0)).toBeGreaterThanOrEqual(116);
        expect((at.at(-1) ?? 0) + 32).toBeLessThanOrEqual(328);
      })
      .finally(() => {
        room.mockRestore();
        document.documentElement.style.fontSize = "";
      });
  });

  it("tells in a legend what is there, and nothing else", () => {
    const none = {
      cut: false,
      third: false,
      look: false,
      unsaid: false,
      ahead: false,
      target: false,
      mow_at: false,
    };
    render(<HeightLegend of={{ ...none, cut: true, target: true }} />);
    expect(screen.getAllByRole("listitem").map((one) => one.textContent)).toEqual([
      "Cut: height before and after",
      "Mowing height",
    ]);
  });

  it("draws only what is known of a cut: a point without the height before, a cross without any", () => {
    const container = draw({
      cuts: [
        { id: "point", day: "2026-05-03", after_mm: 76 },
        { id: "cross", day: "2026-05-10" },
      ],
      ahead: [],
      target_mm: undefined,
      mow_at_mm: undefined,
    });
    expect(container.querySelectorAll(".height-cut circle")).toHaveLength(1);
    expect(container.querySelectorAll(".height-unsaid")).toHaveLength(1);
    for (const none of [".height-taken", ".height-third", ".height-band", ".height-level", ".height-since"])
      expect(container.querySelector(none)).toBeNull();
  });

  it("keeps all it draws of cuts inside its frame, and no two dates touch", () => {
    const container = draw({ cuts: [...CUTS, { id: "now", day: "2026-05-13", after_mm: 300 }] });
    for (const circle of container.querySelectorAll(".height-cut circle")) {
      const [x = 0, y = 0] = numbers(circle, "cx", "cy");
      expect([x > 36, x < 320, y > 24, y <= 206]).toEqual([true, true, true, true]);
    }
    const dates = [...container.querySelectorAll(".axes text")].filter(
      (one) => one.getAttribute("text-anchor") === "middle",
    );
    const at = dates.map((one) => numbers(one, "x")[0] ?? 0).sort((a, b) => a - b);
    expect(at.length).toBeGreaterThan(1);
    for (const [k, one] of at.slice(1).entries()) expect(one - (at[k] ?? 0)).toBeGreaterThanOrEqual(58);
  });
});
