import { describe, expect, it } from "vitest";
import type { Row } from "../../../platform/store/types";
import type { HistoryRow } from "../../../records/pass-history";
import { doubtsOf, learningOf } from "./learning";

const row = (entryId: string, bad = false, part: number | null = null): HistoryRow => ({
  entryId,
  spreadId: "w",
  at: "2026-05-14T18:05:00+02:00",
  part,
  past: { product: "p", dial: 6, area_m2: 100, used_kg: 2, measured: "scale", ...(bad ? { bad } : {}) },
});
const WALKED = [
  { id: "one", number: 1 },
  { id: "two", number: 2 },
];

describe("passes that look unlike the others", () => {
  it("names those of this walk by their number, with the chance", () => {
    const said = { bad_passes: [0, 2], bad_chances: [{ index: 2, chance: 0.8 }] };
    const rows = [row("older"), row("one"), row("two")];
    expect(doubtsOf(said, rows, WALKED)).toEqual([
      { entryId: "two", number: 2, chance: 0.8, leftOut: false },
    ]);
  });

  it("names a pass of two settings once", () => {
    const rows = [row("one"), row("two", false, 0), row("two", false, 1)];
    expect(doubtsOf({ bad_passes: [1, 2] }, rows, WALKED)).toHaveLength(1);
  });

  it("knows one that was left out by hand", () => {
    expect(doubtsOf({ bad_passes: [1] }, [row("one"), row("two", true)], WALKED)[0]?.leftOut).toBe(true);
  });

  it("passes over places an answer to older rows names", () => {
    expect(doubtsOf({ bad_passes: [7] }, [row("one")], WALKED)).toEqual([]);
    expect(doubtsOf(undefined, [row("one")], WALKED)).toEqual([]);
  });

  it("is written over the entry, either way, and the body stays", () => {
    const two = { id: "two", t: "entry", groups: {}, pending: false, hidden: false } as unknown as Row;
    const out = learningOf(two, true, { by: "me", at: "2026-05-14T18:05:00+02:00" });
    expect(out).toMatchObject({ t: "entry", id: "two", set: { learning: { bad: true, by: "me" } } });
    expect(out.body).toBeUndefined();
    const marked = { ...two, groups: { learning: { value: out.set?.["learning"] } } } as unknown as Row;
    const back = learningOf(marked, false, { by: undefined, at: "2026-05-15T07:00:00+02:00" });
    expect(back.set?.["learning"]).toMatchObject({
      bad: false,
      by: null,
      was: [{ value: true, why: "Looks off", by: "me", at: "2026-05-14T18:05:00+02:00" }],
    });
  });
});
