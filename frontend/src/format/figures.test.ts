import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { grouped } from "./figures";
import {
  area,
  areaBetween,
  areaError,
  count,
  density,
  dial,
  height,
  length,
  mass,
  money,
  nitrogen,
  nitrogenPrice,
  percent,
  range,
  rate,
  roundLength,
  speed,
  unitOf,
  unitsFor,
} from "./index";

/** Hard and narrow spaces made plain, to be read in a test. */
function said(shown: { text: string }): string {
  return shown.text.replace(/[\u00a0\u202f]/g, " ");
}

describe("figures in the person's units", () => {
  test("an area that is only roughly known, rounded outwards to what the gap can bear", () => {
    expect(said(areaBetween(95.3, 104.7, "metric"))).toBe("95.3 and 104.7 m²");
    expect(said(areaBetween(545.7, 651.9, "metric"))).toBe("540 and 660 m²");
    expect(said(areaBetween(545.7, 651.9, "us"))).toBe("5,800 and 7,100 ft²");
    expect(said(areaBetween(-3, 12, "metric"))).toBe("0 and 12 m²");
  });

  test("how far off an area may be, whole from 10 up", () => {
    expect(said(areaError(5.286, "us"))).toBe("57 ft²");
    expect(said(areaError(5.286, "metric"))).toBe("5.3 m²");
  });

  test("every number is written as Intl writes it, whatever its size", () => {
    const wide = fc.oneof(
      fc.double({ min: -2e6, max: 2e6, noNaN: true }),
      fc.integer({ min: -10_000_000, max: 10_000_000 }).map((n) => n / 1000), // ties at the last decimal
      fc.double({ noNaN: true, noDefaultInfinity: true }),
    );
    fc.assert(
      fc.property(wide, fc.nat(3), fc.boolean(), (value, decimals, fixed) => {
        const digits = { maximumFractionDigits: decimals, minimumFractionDigits: fixed ? decimals : 0 };
        const theirs = new Intl.NumberFormat("en-US", digits).format(value);
        const mine = grouped(value, decimals, "us", fixed);
        expect(mine).toBe(/[1-9]/.test(theirs) ? theirs : theirs.replace("-", ""));
      }),
      { numRuns: 3000 },
    );
  });

  test("an area, grouped by comma or by a narrow space", () => {
    expect(said(area(445.934592, "us"))).toBe("4,800 ft²");
    expect(said(area(4645.152, "metric"))).toBe("4 645 m²");
    expect(said(area(12.34, "metric"))).toBe("12.3 m²");
    expect(area(4645.152, "metric").number).toBe("4\u202f645");
  });

  test("a weight, small ones in the small unit", () => {
    expect(said(mass(21.77243376, "us"))).toBe("48 lb");
    expect(said(mass(21.77243376, "metric"))).toBe("21.8 kg");
    expect(said(mass(1.0205828325, "us"))).toBe("2.25 lb");
    expect(said(mass(0.226796185, "us"))).toBe("8 oz");
    expect(said(mass(0.35, "metric"))).toBe("350 g");
    expect(said(mass(0, "us"))).toBe("0 lb");
    expect(said(mass(-0.35, "metric"))).toBe("-350 g");
  });

  test("never 1,000 g nor 16 oz where one of the large unit is meant", () => {
    expect(said(mass(0.9996, "metric"))).toBe("1 kg");
    expect(said(mass(0.453592, "us"))).toBe("1 lb");
    expect(said(mass(0.998, "metric"))).toBe("998 g");
  });

  test("a rate and its nitrogen", () => {
    const one = 0.45359237 / 92.90304;
    expect(said(rate(3 * one, "us"))).toBe("3 lb/1,000 ft²");
    expect(said(rate(3 * one, "metric"))).toBe("1.46 kg/100 m²");
    expect(said(nitrogen(0.9 * one, "us"))).toBe("0.9 lb N/1,000 ft²");
    expect(said(nitrogen(0.9 * one, "metric"))).toBe("4.39 g N/m²");
  });

  test("lengths, heights, speeds, densities", () => {
    expect(said(length(3.81, "us"))).toBe("12.5 ft");
    expect(said(length(3.81, "metric"))).toBe("3.81 m");
    expect(said(height(82.55, "us"))).toBe("3.25 in");
    expect(said(height(82.55, "metric"))).toBe("83 mm");
    expect(said(speed(1.34112, "us"))).toBe("3 mph");
    expect(said(speed(1.25, "metric"))).toBe("4.5 km/h");
    expect(said(density(768.886, "us"))).toBe("48 lb/ft³");
    expect(said(density(768.886, "metric"))).toBe("769 kg/m³");
  });

  test("money, shares, counts", () => {
    expect(said(money(1234.5))).toBe("1,234.50");
    expect(said(percent(0.05))).toBe("5%");
    expect(said(percent(0.123))).toBe("12%");
    expect(said(percent(0))).toBe("0%");
    expect(said(count(1, "bag"))).toBe("1 bag");
    expect(said(count(2, "bag"))).toBe("2 bags");
    expect(said(count(1, "pass", "passes"))).toBe("1 pass");
  });

  test("a dial has the decimals of its click", () => {
    expect(dial(12, 0.5).text).toBe("12.0");
    expect(dial(12.5, 0.5).text).toBe("12.5");
    expect(dial(7, 1).text).toBe("7");
    expect(dial(1250, 1).text).toBe("1250");
    expect(dial(3.25, 0.25).text).toBe("3.25");
  });

  test("nothing is ever minus zero", () => {
    expect(said(area(-0.0001, "us"))).toBe("0 ft²");
  });

  test("a range names its unit once when both have the same", () => {
    expect(said(range(mass(1.5, "metric"), mass(1.8, "metric")))).toBe("1.5–1.8 kg");
    expect(said(range(mass(0.5, "metric"), mass(1.8, "metric")))).toBe("500 g to 1.8 kg");
    expect(said(range(mass(2, "metric"), mass(2, "metric")))).toBe("2 kg");
    expect(said(range(mass(0, "us"), mass(0.25, "us")))).toMatch(/^0–8\.8.oz$/);
  });
});

describe("the length of a scale bar", () => {
  test.each([
    [10.4, "us", "20 ft", 6.096],
    [16, "us", "50 ft", 15.24],
    [1.524, "us", "5 ft", 1.524],
    [10.4, "metric", "10 m", 10],
    [9.9, "metric", "5 m", 5],
    [2.4, "metric", "2 m", 2],
    [0.7, "metric", "0.5 m", 0.5],
  ] as const)("of at most %s m is round for a %s reader", (most, system, text, metres) => {
    const bar = roundLength(most, system);
    expect(said(bar)).toBe(text);
    expect(bar.length_m).toBeCloseTo(metres, 9);
  });
});

describe("the units offered", () => {
  test("the person's own system comes first, the other stays within reach", () => {
    expect(unitsFor("mass", "us").map((unit) => unit.key)).toEqual(["lb", "oz", "kg", "g", "t"]);
    expect(unitsFor("mass", "metric").map((unit) => unit.key)).toEqual(["kg", "g", "t", "lb", "oz"]);
    expect(unitOf("height", "metric").key).toBe("height_mm");
  });
});

describe("what nitrogen costs", () => {
  test("is said for a pound or a kilogram of it (0.45359237 kg a pound)", () => {
    expect(nitrogenPrice(5, "us").text).toBe("2.27 per lb N");
    expect(nitrogenPrice(5, "metric").text).toBe("5.00 per kg N");
  });
});
