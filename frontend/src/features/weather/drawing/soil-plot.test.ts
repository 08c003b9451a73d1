import { describe, expect, it } from "vitest";
import { dayAfter, temperatureSteps } from "../../../format";
import { dayTicks, reach, roomier, rowsOf, type SoilDay, secondsOf, soilPlot } from "./soil-plot";

const TODAY = "2026-04-01";

function days(count: number, first = "2026-03-25"): SoilDay[] {
  return Array.from({ length: count }, (_, at) => {
    const date = dayAfter(first, at);
    const air = date <= TODAY ? "measured" : date <= "2026-04-05" ? "forecast" : "climate";
    return { date, low: at - 2, mid: at, high: at + 2, air } as const;
  });
}

const INK = {
  ink: "#000",
  soft: "#555",
  rule: "#ccc",
  paper: "#fff",
  flag: "#900",
  letters: 12,
  family: "serif",
};

describe("the chart of soil warmth", () => {
  it("has a line a kind of air, each from where the one before it ends", () => {
    const [x, , , measured = [], forecast = [], climate = []] = rowsOf(days(16));
    const drawn = (row: ArrayLike<number | null | undefined>) =>
      Array.from(row).flatMap((one, at) => (one === null ? [] : [at]));
    expect(x[0]).toBe(secondsOf("2026-03-25"));
    expect(drawn(measured)).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    expect(drawn(forecast)).toEqual([7, 8, 9, 10, 11]);
    expect(drawn(climate)).toEqual([11, 12, 13, 14, 15]);
  });

  it("tells the kinds of air apart by their dashes, never by color", () => {
    const drawn = { today: TODAY, days: days(16), points: [], marks: [] };
    const curves = soilPlot(drawn, "us", "°F", INK).options.series.slice(3);
    expect(curves.map(({ dash }) => dash)).toEqual([[], [8, 5], [2, 5]]);
    expect(new Set(curves.map(({ stroke }) => stroke))).toEqual(new Set(["#000"]));
  });

  it("holds every reading and every threshold, however far off the curve", () => {
    const drawn = {
      today: TODAY,
      days: days(10),
      points: [{ date: TODAY, mid: -20, used: true }],
      marks: [{ mid: 40, words: ["Far"] }],
    };
    const [low, high] = reach(drawn);
    expect(low).toBeLessThan(-20);
    expect(high).toBeGreaterThan(40);
  });

  it("writes few dates, firsts of months where it holds several", () => {
    expect(dayTicks(days(84))).toHaveLength(3);
    const year = dayTicks(days(330)).map((at) => new Date(at * 1000).getUTCDate());
    expect(new Set(year)).toEqual(new Set([1]));
    expect(year.length).toBeLessThanOrEqual(5);
  });

  it("writes what a line is where the curve is farther from it", () => {
    expect(roomier(days(40), 2)).toBe("right");
    expect(roomier(days(40), 37)).toBe("left");
  });
});

describe("steps of a scale of temperatures", () => {
  it("are round in the reader's own unit", () => {
    expect(temperatureSteps(-3, 26, "us").map(({ text }) => text)).toEqual(["40", "60"]);
    expect(temperatureSteps(-3, 26, "metric").map(({ c }) => c)).toEqual([0, 10, 20]);
    expect(temperatureSteps(-3, 26, "metric")[0]?.text).toBe("0");
    expect(temperatureSteps(4, 18, "us").map(({ text }) => text)).toEqual(["40", "50", "60"]);
    expect(temperatureSteps(-12, -4, "metric").map(({ c }) => c)).toEqual([-12, -10, -8, -6, -4]);
  });
});
