import { cleanup, fireEvent, render, screen } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import { roundLength } from "../../format";
import { BagLabel, nameLines } from "./bag-label";
import { DialDrawing } from "./dial-drawing";
import { HopperDrawing } from "./hopper-drawing";
import { HopperMeasures } from "./hopper-measures";
import { ZoneDrawing } from "./zone-drawing";

afterEach(cleanup);

describe("the drawn bag", () => {
  it("says what has been typed so far and what is still unknown", () => {
    render(<BagLabel name="Plain 23-0-9" n="23" k2o="9" net="44 lb" />);
    const bag = screen.getByRole("img");
    expect(bag.querySelector("title")?.textContent).toBe(
      "A bag: Plain 23-0-9, analysis 23-unknown-9, covers unknown, net weight 44 lb",
    );
    expect(bag.textContent).toContain("NET WEIGHT 44 lb");
  });

  it("points at the field in focus and at nothing otherwise", () => {
    const { container, rerender } = render(<BagLabel />);
    expect(container.querySelector(".bag-focus")).toBeNull();
    rerender(<BagLabel focus="net" />);
    expect(container.querySelector(".bag-focus")).not.toBeNull();
  });

  it("keeps a long name inside the bag", () => {
    const lines = nameLines("A most extraordinarily long name for a bag of granules");
    expect(lines).toHaveLength(2);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(19);
    expect(lines[1]?.endsWith("…")).toBe(true);
  });
});

describe("the drawn dial", () => {
  it("says its ends, its setting and its likely range", () => {
    render(<DialDrawing lowest={1} highest={24} step={0.5} at={6.5} range={{ low: 5, high: 8 }} />);
    expect(screen.getByRole("img").querySelector("title")?.textContent).toBe(
      "Dial from 1 to 24, set to 6.5, likely between 5 and 8",
    );
  });

  it("tells the ends and the clicks to those who do not see it, and draws a band only where one is known", () => {
    const { container, rerender } = render(<DialDrawing lowest={1} highest={10} step={1} />);
    expect(screen.getByRole("img").querySelector("desc")?.textContent).toBe(
      "Shut at 1, fully open at 10, 9 clicks of 1.",
    );
    expect(container.querySelector(".dial-range")).toBeNull();
    rerender(<DialDrawing lowest={1} highest={10} step={1} range={{ low: 4, high: 4 }} />);
    expect(container.querySelectorAll(".dial-range line")).toHaveLength(2);
  });

  it("is not drawn from numbers that make no dial", () => {
    const { container } = render(<DialDrawing lowest={5} highest={1} step={1} />);
    expect(container.innerHTML).toBe("");
  });
});

describe("the measures of a hopper", () => {
  it("are five, and the one in focus is told apart", () => {
    const { container, rerender } = render(<HopperMeasures />);
    expect([...container.querySelectorAll("text")].map((text) => text.textContent)).toEqual([..."ABCDE"]);
    expect(container.querySelector(".measure--lit")).toBeNull();
    rerender(<HopperMeasures focus="bottom_width_m" />);
    expect(container.querySelector(".measure--lit text")?.textContent).toBe("D");
    expect(screen.getByRole("img").querySelector("title")?.textContent).toContain("at D");
  });
});

describe("the drawn hopper", () => {
  it("has a slider that says where the level is and moves it", () => {
    const moved = vi.fn();
    render(<HopperDrawing level={0.4} onLevel={moved} label="Level, smoothed flat" />);
    const slider = screen.getByRole("slider", { name: "Level, smoothed flat" });
    expect(slider.getAttribute("aria-valuetext")).toBe("40 percent of the hopper's height");
    fireEvent.input(slider, { target: { value: "55" } });
    expect(moved).toHaveBeenCalledWith(0.55);
  });

  it("is only a picture where nobody may move it", () => {
    render(<HopperDrawing level={0.4} />);
    expect(screen.queryByRole("slider")).toBeNull();
  });
});

describe("the drawn ground", () => {
  it("counts what is drawn and what is cut out", () => {
    const parts = [
      { shape: "rectangle", length_m: 20, width_m: 6 },
      { shape: "circle", radius_m: 1, add: false },
    ];
    render(<ZoneDrawing parts={parts} />);
    const ground = screen.getByRole("img");
    expect(ground.querySelector("title")?.textContent).toContain("1 drawn, 1 cut out");
    expect(ground.querySelector(".zone-scale")).toBeNull();
  });

  it("draws its scale as long as it says, round to the reader", () => {
    const parts = [{ shape: "rectangle", length_m: 20, width_m: 6 }];
    render(<ZoneDrawing parts={parts} scale={(most) => roundLength(most, "us")} />);
    const ground = screen.getByRole("img");
    // 20 m are drawn 280 wide: a third of them is 6.67 m, of which the reader is given 20 ft.
    expect(ground.textContent?.replace("\u00a0", " ")).toContain("20 ft");
    const bar = ground.querySelector(".zone-scale path")?.getAttribute("d") ?? "";
    expect(Number(/h([\d.]+)/.exec(bar)?.[1])).toBeCloseTo((20 * 0.3048 * 280) / 20, 6);
  });

  it("draws nothing before anything is measured", () => {
    const { container } = render(<ZoneDrawing parts={[{ shape: "rectangle" }]} />);
    expect(container.innerHTML).toBe("");
  });
});
