import { describe, expect, it } from "vitest";
import { entryOf, totalsEntry, totalsOf } from "./entries";
import { fakeRow } from "./fake-book";

describe("an entry as the engine takes it", () => {
  it("says of which sort the product of a walk was, so that seed is no feed", () => {
    const body = { kind: "spread", occurred_at: "2026-05-01T10:00:00Z", zone_ids: ["z"], sort: "seed" };
    expect(totalsEntry(entryOf(fakeRow({ t: "entry", id: "a", body })))).toEqual({
      id: "a",
      kind: "spread",
      occurred_at: "2026-05-01T10:00:00Z",
      zone_ids: ["z"],
      void: false,
      sort: "seed",
    });
  });
});

describe("what the totals are asked", () => {
  const mow = (id: string, occurred_at: string) =>
    entryOf(fakeRow({ t: "entry", id, body: { kind: "mow", occurred_at, zone_ids: ["z"] } }));
  const asked = (...rows: ReturnType<typeof mow>[]) =>
    totalsOf(rows, "2026-05-14").entries.map((entry: any) => entry.id);

  it("holds no mow dated next year, and none is left out for it", () => {
    const rows = [mow("old", "2026-05-10T10:00:00Z"), mow("next year", "2027-05-10T10:00:00Z")];
    expect(asked(...rows)).toEqual(["old"]);
  });

  it("holds one dated tomorrow: clocks and time zones stand apart", () => {
    expect(asked(mow("tomorrow", "2026-05-15T08:00:00+13:00"))).toEqual(["tomorrow"]);
    expect(asked(mow("later", "2026-05-16T08:00:00+13:00"))).toEqual([]);
  });
});
