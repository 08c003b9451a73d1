import { cleanup, fireEvent, render, screen } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import { roundSteps, scaled } from "./chart-shape";
import { CurveDrawing, curveReach } from "./curve-drawing";
import { TrayOverlap, TrayPass, UnevennessChart } from "./tray-drawing";

afterEach(cleanup);

const DIAL = { lowest: 0, highest: 20, step: 1 };
const POINTS = Array.from({ length: 20 }, (_, k) => ({
  dial: k + 1,
  rate_kg_m2: { low: k * 0.8, mid: k, high: k * 1.3 },
}));

describe("round steps of a chart", () => {
  it("are 1, 2 or 5 of the reader's unit and never above the top", () => {
    expect(roundSteps(23, 1, 4)).toEqual([0, 10, 20]);
    expect(roundSteps(0.047, 0.01, 4)).toEqual([0, 0.02, 0.04]);
    expect(roundSteps(0, 1)).toEqual([0]);
  });

  it("stand where a straight scale puts them", () => {
    expect(scaled(0, 10, 100, 0)(2.5)).toBe(75);
  });
});

describe("the learned curve", () => {
  const draw = (props: object = {}) =>
    render(
      <CurveDrawing
        dial={DIAL}
        points={POINTS}
        past={[
          { key: "one", dial: 6, rate_kg_m2: 5, mark: "this" },
          { key: "two", dial: 8, rate_kg_m2: 7, mark: "other" },
          { key: "three", dial: 7, rate_kg_m2: 2, mark: "doubtful" },
          { key: "four", dial: 5, rate_kg_m2: 1, mark: "left_out" },
        ]}
        write={String}
        factor={1}
        unit="kg"
        writeDial={String}
        {...props}
      />,
    );

  it("tells passes apart by shape and says that they are listed", () => {
    const { container } = draw();
    for (const [mark, shape] of Object.entries({
      this: "circle",
      other: "rect",
      doubtful: "path",
      left_out: "path",
    }))
      expect(container.querySelector(`.curve-mark--${mark} ${shape}`)).not.toBeNull();
    expect(screen.getByRole("img").querySelector("title")?.textContent).toContain("4 past passes");
  });

  it("looks past the settings walked, on a whole click, never off the dial", () => {
    const past = [{ key: "one", dial: 7, rate_kg_m2: 5, mark: "this" as const }];
    expect(curveReach(DIAL, POINTS, past)).toEqual({ to: 11, top: 12.5 });
    expect(curveReach(DIAL, POINTS, []).to).toBe(20);
    expect(
      curveReach(DIAL, POINTS, [{ ...past[0], key: "far", dial: 19, rate_kg_m2: 9, mark: "this" }]).to,
    ).toBe(20);
  });

  it("takes a tap within a thumb's reach of a point and none farther off", () => {
    const picked = vi.fn();
    const { container } = draw({ onPick: picked });
    const svg = screen.getByRole("img");
    svg.getBoundingClientRect = () => ({ left: 0, top: 0, width: 328, height: 254 }) as DOMRect;
    const disc = container.querySelector(".curve-mark--this circle");
    const [x, y] = ["cx", "cy"].map((name) => Number(disc?.getAttribute(name))) as [number, number];
    fireEvent.click(svg, { clientX: x - 14, clientY: y - 14 });
    expect(picked).toHaveBeenCalledWith("one");
    fireEvent.click(svg, { clientX: 320, clientY: 20 });
    expect(picked).toHaveBeenCalledTimes(1);
  });
});

describe("a drawn tray test", () => {
  it("shows each catch by its height and says them all", () => {
    const { container } = render(<TrayPass catches={[1, null, 4]} texts={["1", "", "4"]} />);
    expect(screen.getByRole("img").querySelector("title")?.textContent).toBe(
      "What 3 trays caught, left to right: 1, not weighed, 4",
    );
    const tall = [...container.querySelectorAll(".tray-bar")].map((bar) =>
      Number(bar.getAttribute("height")),
    );
    expect(tall[0]).toBeCloseTo((tall[2] ?? 0) / 4, 9);
    expect(tall[1]).toBe(0);
  });

  it("turns the second track about where the strips are walked back and forth", () => {
    const draw = (mirrored: boolean) =>
      render(
        <TrayOverlap
          catches_g={[0, 1, 5]}
          apart={2}
          overlapped_g={[0, 1, 10, 1]}
          mean_g={3}
          mirrored={mirrored}
          distance="4 ft"
          unevenness="90%"
        />,
      )
        .container.querySelectorAll(".tray-single")[1]
        ?.getAttribute("d");
    const there = draw(false);
    cleanup();
    expect(draw(true)).not.toBe(there);
  });

  it("fills the distances within the limit and leaves those over it hollow", () => {
    const { container } = render(
      <UnevennessChart
        rows={[
          { spacing_m: 1, cv_share: 0.02 },
          { spacing_m: 2, cv_share: 0.15 },
          { spacing_m: 3, cv_share: 0.3 },
        ]}
        limit_share={0.15}
        chosen_m={2}
        write={String}
        unit="m"
      />,
    );
    expect(container.querySelectorAll(".tray-point--within")).toHaveLength(2);
    expect(container.querySelectorAll(".tray-chosen")).toHaveLength(1);
  });
});
