import { describe, expect, it } from "vitest";
import { entryOf } from "./entries";
import { fakeRow, groups } from "./fake-book";
import { mostAYear, yearAsk } from "./walk-year";

const fed = (id: string, at: string, n_kg_m2: number | null, over: object = {}) =>
  entryOf(
    fakeRow({
      t: "entry",
      id,
      body: {
        kind: "walk",
        occurred_at: at,
        slow_n_share: 0.5,
        zones: [
          { zone_id: "verge", n_kg_m2 },
          { zone_id: "long", n_kg_m2: 9 },
        ],
      },
      ...over,
    }),
  );

describe("nitrogen in the year", () => {
  // University of Illinois range as printed in grasses.json: 1 to 4 lb per 1,000 ft2 for Kentucky bluegrass.
  it("takes the most that is published for the grass, in kg per m2", () => {
    const most = mostAYear("kentucky_bluegrass")?.n_kg_m2 ?? 0;
    expect(most).toBeCloseTo((4 * 0.45359237) / 92.90304, 6);
  });

  it("has nothing to say of a grass without a published range", () => {
    expect(mostAYear("moss")).toBeUndefined();
    expect(yearAsk({ id: "verge", name: "Verge", area_m2: 10 }, [], 0.01, "2026-05-14")).toBeNull();
  });

  it("counts the zone's own feedings and this walk, and no struck-out or unknown ones", () => {
    const entries = [
      fed("a", "2026-04-01T10:00:00Z", 0.004),
      fed("b", "2026-04-20T10:00:00Z", null),
      fed("c", "2026-05-01T10:00:00Z", 0.004, { groups: groups({ void: { void: true } }) }),
    ];
    const zone = { id: "verge", name: "Verge", area_m2: 10, grass: "kentucky_bluegrass" };
    const ask = yearAsk(zone, entries, 0.003, "2026-05-14T18:00:00+02:00");
    expect((ask?.args as any)?.entries).toEqual([
      { date: "2026-04-01", zone: "verge", n_kg_m2: 0.004, slow_share: 0.5 },
      { date: "2026-05-14", zone: "verge", n_kg_m2: 0.003 },
    ]);
  });
});
