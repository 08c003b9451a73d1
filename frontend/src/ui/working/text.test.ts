import { describe, expect, it } from "vitest";
import { sayDates, sayNumber, sayResult } from "./text";

describe("a temperature in a working", () => {
  it.each([
    ["us", "50\u00a0°F"],
    ["metric", "10\u00a0°C"],
  ] as const)("is said from its own zero (%s)", (system, text) => {
    expect(sayNumber("annual_mean_c", 10, system)).toEqual({ name: "annual mean", text });
    expect(sayResult(10, "C", system)).toBe(text);
  });

  it.each([
    ["us", "1.8\u00a0°F"],
    ["metric", "1\u00a0°C"],
  ] as const)("is a number of degrees where two are apart (%s)", (system, text) => {
    expect(sayNumber("lasting_error_c", 1, system)).toEqual({ name: "lasting error", text });
    expect(sayNumber("sd_c", 1, system)).toEqual({ name: "sd", text });
    expect(sayResult(1, "K", system)).toBe(text);
  });

  it.each([
    ["us", "90\u00a0°F days"],
    ["metric", "50\u00a0°C days"],
  ] as const)("is counted in the reader's own degrees where days of it are added up (%s)", (system, text) => {
    expect(sayResult(50, "C day", system)).toBe(text);
    expect(sayResult([50, 50], "C day", system)).toBe(`${text}, ${text}`);
  });

  it("leaves nitrogen and weights as they were", () => {
    expect(sayNumber("year_n_kg_m2", 0.005, "metric").name).toBe("year nitrogen");
    expect(sayNumber("net_kg", 20, "metric")).toEqual({ name: "net", text: "20\u00a0kg" });
  });
});

describe("a depth in the soil in a working", () => {
  it.each([
    ["us", "4\u00a0in"],
    ["metric", "100\u00a0mm"],
  ] as const)("is said no nearer than on the page it belongs to (%s)", (system, text) => {
    expect(sayNumber("depth_mm", 100, system)).toEqual({ name: "depth", text });
    expect(sayResult(100, "mm deep", system)).toBe(text);
  });

  it("leaves a height as near as it is read", () => {
    expect(sayNumber("cut_mm", 66, "us").text).toBe("2.6\u00a0in");
  });
});

describe("a day in a working", () => {
  it("is said as a date, as a result and among the numbers", () => {
    expect(sayResult("2026-04-18", "date", "us")).toBe("18 Apr 2026");
    expect(sayNumber("latest", "2026-04-18", "us").text).toBe("18 Apr 2026");
    expect(sayResult(null, "date", "us")).toBe("not given");
  });

  it("is said as a date within words too", () => {
    expect(sayDates("Fed 2026-05-02: adds to today's growth")).toBe("Fed 2 May 2026: adds to today's growth");
    expect(sayDates("1 less height wanted over height")).toBe("1 less height wanted over height");
  });
});
