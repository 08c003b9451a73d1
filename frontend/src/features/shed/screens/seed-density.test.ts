import { expect, it } from "vitest";
import { saySeedDensity } from "./seed-density";

it("tells what seed weighs as the table's ranges, never as one figure", () => {
  // 180 and 360 kg/m3 are 11.2 and 22.5 lb/ft3; 260 and 390 are 16.2 and 24.3 (1 lb/ft3 is 16.018 kg/m3).
  const [us, metric] = [saySeedDensity("seed", "us"), saySeedDensity("seed", "metric")];
  expect(us).toMatch(/Kentucky bluegrass seed 11\S*–22\S*\slb/);
  expect(us).toMatch(/tall fescue seed 16\S*–24\S*\slb/);
  expect(metric).toMatch(/180–360\skg/);
  expect(metric).toMatch(/260–390\skg/);
  expect(us).toContain("From memory");
});

it("says nothing of it for other sorts", () => {
  expect(saySeedDensity("fertilizer", "us")).toBeUndefined();
});
