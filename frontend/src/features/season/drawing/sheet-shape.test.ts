import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  area,
  type Band,
  clothAt,
  FLAG_WIDE,
  type Flag,
  hatchOf,
  laidOut,
  ON_SCREEN,
  onPage,
  stepped,
  weekAt,
} from "./sheet-shape";

const flag = (step: string, week: number): Flag => ({
  step,
  job: "feed",
  week,
  from: "2026-05-04",
  to: "2026-05-10",
  product: null,
  n_kg_m2: 0,
  kg: null,
  bags: null,
  locked: false,
  state: "planned",
  late: false,
  earlier_weeks: 0,
  later_weeks: 0,
});

const band = (group: string, weeks: readonly number[]): Band => ({
  group,
  zones: [],
  need_n_kg_m2: null,
  free_n_kg_m2: null,
  bars: [],
  flags: weeks.map((week, at) => flag(`${group}${at}`, week)),
});

const sheet = (bands: readonly Band[]) => ({
  bands: [...bands],
  weeks: Array.from({ length: 53 }, () => ({ date: "2026-01-05" })),
});

const drawn = fc.array(fc.array(fc.integer({ min: 0, max: 52 }), { maxLength: 14 }), {
  minLength: 1,
  maxLength: 12,
});
const bands = (weeks: readonly (readonly number[])[]) =>
  weeks.map((some, at) =>
    band(
      `g${at}-`,
      [...some].sort((a, b) => a - b),
    ),
  );

describe("a year's sheet on paper", () => {
  it("lets no two flags of a band lie on each other, nor one leave the paper", () => {
    fc.assert(
      fc.property(drawn, (weeks) => {
        const { wide, bands: placed } = laidOut(sheet(bands(weeks)), ON_SCREEN);
        for (const { flags } of placed)
          for (const [at, one] of flags.entries()) {
            expect(one.left).toBeGreaterThanOrEqual(0);
            expect(one.left + FLAG_WIDE).toBeLessThanOrEqual(wide);
            for (const other of flags.slice(at + 1))
              if (other.lane === one.lane)
                expect(Math.abs(other.left - one.left)).toBeGreaterThanOrEqual(FLAG_WIDE);
          }
      }),
    );
  });

  it("draws each band below the one before", () => {
    fc.assert(
      fc.property(drawn, (weeks) => {
        const { high, bands: placed } = laidOut(sheet(bands(weeks)), ON_SCREEN);
        placed.forEach(({ top, plotBottom }, at) => {
          expect(plotBottom).toBeLessThan(placed[at + 1]?.top ?? high);
          expect(top).toBeLessThan(plotBottom);
        });
      }),
    );
  });

  it("fits one page whatever the number of bands, as long as their flags leave room", () => {
    for (const count of [1, 3, 12]) {
      const value = sheet(Array.from({ length: count }, (_, at) => band(`g${at}`, [4, 20, 36])));
      const { high } = laidOut(value, onPage(value, 1400));
      expect(high).toBeCloseTo(1400, 6);
    }
  });

  it("draws a week as wide as it is, up from nothing", () => {
    const y = (value: number) => 100 - value;
    expect(stepped([1, 2], y)).toBe(`M${weekAt(0)} 99.00H${weekAt(1)}L${weekAt(1)} 98.00H${weekAt(2)}`);
    expect(area([1], y)).toBe(`M${weekAt(0)} 100L${weekAt(0)} 99.00H${weekAt(1)}V100Z`);
  });

  it("hangs the cloth of a late flag to the left, so that it stays on the paper", () => {
    expect(clothAt(3, 2000)).toBe(weekAt(3));
    expect(clothAt(52, weekAt(53) + 10)).toBeLessThan(weekAt(52));
  });

  it("hatches eight products each in a way of its own", () => {
    const all = Array.from({ length: 8 }, (_, at) => JSON.stringify(hatchOf(at)));
    expect(new Set(all).size).toBe(8);
  });
});
