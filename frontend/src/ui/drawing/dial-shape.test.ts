import { describe, expect, it } from "vitest";
import {
  angleOf,
  clicked,
  clicks,
  drawable,
  numeralSettings,
  onCircle,
  tickSettings,
  widened,
} from "./dial-shape";

const HALF_STEPS = { lowest: 1, highest: 24, step: 0.5 };

describe("a drawn dial", () => {
  it("stands at bottom left when closed and bottom right when open", () => {
    expect(angleOf(HALF_STEPS, 1)).toBe(-135);
    expect(angleOf(HALF_STEPS, 24)).toBe(135);
    expect(angleOf(HALF_STEPS, 12.5)).toBe(0);
  });

  it("stops the pointer at its ends", () => {
    expect(angleOf(HALF_STEPS, 99)).toBe(135);
    expect(angleOf(HALF_STEPS, -5)).toBe(-135);
  });

  it("puts straight up above the middle", () => {
    const [x, y] = onCircle(110, 110, 80, 0);
    expect(x).toBeCloseTo(110, 9);
    expect(y).toBeCloseTo(30, 9);
  });

  it("has a tick for every click of a 1 to 24 dial in half steps", () => {
    expect(tickSettings(HALF_STEPS)).toHaveLength(47);
    expect(tickSettings(HALF_STEPS).slice(0, 3)).toEqual([1, 1.5, 2]);
  });

  it("thins the ticks of a dial with very many clicks", () => {
    expect(tickSettings({ lowest: 0, highest: 100, step: 0.1 }).length).toBeLessThanOrEqual(73);
  });

  it("writes both ends and keeps other numerals clear of them", () => {
    const written = numeralSettings(HALF_STEPS);
    expect(written[0]).toBe(1);
    expect(written.at(-1)).toBe(24);
    expect(written.length).toBeLessThanOrEqual(9);
    expect(new Set(written).size).toBe(written.length);
  });

  it("moves by whole clicks and never off the dial", () => {
    expect(clicked(HALF_STEPS, 6.5, 1)).toBe(7);
    expect(clicked(HALF_STEPS, 24, 1)).toBe(24);
    expect(clicked(HALF_STEPS, 1, -3)).toBe(1);
    expect(clicked({ lowest: 0, highest: 1, step: 0.1 }, 0.2, 1)).toBe(0.3);
  });

  it("is not drawn when its numbers do not run upward", () => {
    expect(drawable({ lowest: 5, highest: 5, step: 1 })).toBe(false);
    expect(drawable({ lowest: 1, highest: 5, step: 0 })).toBe(false);
    expect(drawable({ lowest: Number.NaN, highest: 5, step: 1 })).toBe(false);
    expect(clicks({ lowest: 1, highest: 10, step: 1 })).toBe(9);
  });
});

describe("a band of settings", () => {
  it("is half a click wider to either side, so that one setting can be seen", () => {
    expect(widened(HALF_STEPS, { low: 6, high: 6 })).toEqual([5.75, 6.25]);
    expect(widened(HALF_STEPS, { low: 8, high: 5 })).toEqual([4.75, 8.25]);
  });

  it("stays on the dial", () => {
    expect(widened(HALF_STEPS, { low: 1, high: 24 })).toEqual([1, 24]);
  });
});
