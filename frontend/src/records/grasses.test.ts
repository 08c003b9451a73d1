import { describe, expect, it } from "vitest";
import { GRASS_CHOICES, grassOf, printedCut } from "./grasses";

const printed = (key: string) => {
  const grass = grassOf(key);
  if (!grass) throw new Error(`no ${key}`);
  return printedCut(grass);
};

describe("what is printed for a grass", () => {
  it("never shows the heights of sports fields for a lawn", () => {
    expect(printed("tall_fescue").range).toEqual({ low: 50.8, high: 88.9 });
    expect(printed("centipedegrass").rows.some(({ sources }) => sources.includes("ut_sorochan"))).toBe(false);
  });

  it("shows each place's own range where places disagree, never one from the lowest to the highest", () => {
    const { range, rows } = printed("st_augustinegrass");
    expect(range).toBeNull();
    expect(rows.map(({ where, low_mm, high_mm }) => [where, low_mm, high_mm])).toEqual([
      ["Florida", 88.9, 101.6],
      ["Mississippi", 50.8, 76.2],
      ["California", 25.4, 50.8],
    ]);
  });

  it("has no height for a home lawn where only a study's treatments were found", () => {
    expect(printed("zoysiagrass_matrella")).toEqual({ range: null, rows: [] });
  });

  it("finds couch under bermudagrass and buffalo under St. Augustinegrass, after the grasses' own names", () => {
    const by = (label: string) => GRASS_CHOICES.find((choice) => choice.label.startsWith(label))?.value;
    expect(by("Couch")).toBe("bermudagrass");
    expect(by("Buffalo:")).toBe("st_augustinegrass");
    expect(by("Buffalograss")).toBe("buffalograss");
    expect(new Set(GRASS_CHOICES.map(({ label }) => label)).size).toBe(GRASS_CHOICES.length);
  });
});
