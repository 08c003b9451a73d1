import { describe, expect, it } from "vitest";
import { entryOf, totalsEntry } from "./entries";
import { fakeRow } from "./fake-book";

describe("an entry as the engine takes it", () => {
  it("says of which sort the product of a walk was, so that seed is no feed", () => {
    const body = { kind: "walk", occurred_at: "2026-05-01T10:00:00Z", zone_ids: ["z"], sort: "seed" };
    expect(totalsEntry(entryOf(fakeRow({ t: "entry", id: "a", body })))).toEqual({
      id: "a",
      kind: "walk",
      occurred_at: "2026-05-01T10:00:00Z",
      zone_ids: ["z"],
      void: false,
      sort: "seed",
    });
  });
});
