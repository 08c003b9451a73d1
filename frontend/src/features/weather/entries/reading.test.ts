// @vitest-environment node
import { describe, expect, it, vi } from "vitest";
import type { Entry } from "../../../records/entries";

vi.mock("../../../records/log/named", async () =>
  (await import("../../../records/log/names")).sayingNames(() => undefined),
);
vi.mock("./soil-detail", () => ({ SoilDetail: () => null }));

const { reading } = await import("./reading");

const entry = (body: object) => ({ body: { measures: "soil", ...body }, zoneIds: [] }) as unknown as Entry;
const plain = (text: string | undefined) => text?.replaceAll("\u00a0", " ");

describe("a soil reading in words", () => {
  it("says its depth as the rest of the app does, no nearer than a probe is pushed in", () => {
    const read = entry({ temperature_c: 12, depth_mm: 100 });
    expect(plain(reading.brief(read, "us"))).toBe("Soil temperature 54 °F at 4 in");
    expect(reading.facts?.(read, "us").map(([name, text]) => `${name}: ${plain(String(text))}`)).toContain(
      "Depth: 4 in",
    );
    expect(plain(reading.brief(read, "metric"))).toBe("Soil temperature 12 °C at 100 mm");
  });

  it("says a depth that was typed as it was typed", () => {
    const read = entry({ depth_mm: 57.15, depth_typed: { amount: "2.25", unit: "in" } });
    expect(plain(reading.brief(read, "metric"))).toContain("at 2.25 in");
  });
});
