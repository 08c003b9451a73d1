import { cleanup, render, screen } from "@testing-library/preact";
import { afterEach, describe, expect, it } from "vitest";
import { Narrowing } from "./narrowing";

afterEach(cleanup);
const write = (value: number) => value.toFixed(1);
const widths = () => [...document.querySelectorAll("rect")].map((bar) => Number(bar.getAttribute("width")));

describe("what was likely and what is now", () => {
  it("is drawn on one scale from nothing up", () => {
    render(
      <Narrowing before={{ low: 1, mid: 2, high: 4 }} after={{ low: 2, mid: 2.5, high: 3 }} write={write} />,
    );
    const [then, now] = widths() as [number, number];
    expect(then / now).toBeCloseTo(3, 6);
    expect(screen.getByRole("img").querySelector("title")?.textContent).toBe(
      "Likely before between 1.0 and 4.0, now between 2.0 and 3.0",
    );
  });

  it("has one bar where nothing was known before", () => {
    render(<Narrowing before={null} after={{ low: 2, mid: 2.5, high: 3 }} write={write} />);
    expect(widths()).toHaveLength(1);
  });
});
