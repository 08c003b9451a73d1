import { describe, expect, it } from "vitest";
import type { HistoryRow } from "../../../records/pass-history";
import { taughtAsk } from "./taught";
import type { Plan } from "./types";

const PLAN = {
  zones: [],
  area_m2: 200,
  target_kg_m2: 0.05,
  mass_kg: 10,
  load_kg: 9,
  load_kg_m2: 0.045,
  passes: 2,
  product: { id: "slow", name: "Slow", granules: "medium" },
  dial: { lowest: 1, highest: 24, step: 0.5 },
} as Plan;

const row = (spreadId: string, at: string, dial: number): HistoryRow => ({
  entryId: `${spreadId}${dial}`,
  spreadId,
  at,
  part: null,
  past: { product: "slow", dial, area_m2: 100, used_kg: 2, measured: "scale" },
});
const OLD = row("a", "2025-09-01T10:00:00+02:00", 4);
const SPRING = row("b", "2026-04-12T10:00:00+02:00", 5);
const MAY = row("c", "2026-05-02T10:00:00+02:00", 6);
const MINE = [row("w", "2026-05-14T18:05:00+02:00", 7), row("w", "2026-05-14T18:25:00+02:00", 8)];
const LATER = row("d", "2026-05-20T18:05:00+02:00", 9);

const dials = (ask: ReturnType<typeof taughtAsk>) =>
  ((ask?.args ?? { history: [] }) as { history: { dial: number }[] }).history.map(({ dial }) => dial);

describe("what a walk taught", () => {
  it("holds the walk's passes against all before them, and none walked since", () => {
    const ask = taughtAsk("w", PLAN, [OLD, SPRING, MAY, ...MINE, LATER], undefined);
    expect(dials(ask)).toEqual([4, 5, 6, 7, 8]);
    expect(ask?.args).toMatchObject({ walked: 2, product: { id: "slow", granules: "medium" } });
  });

  it("says from when to when the passes before it are, within their last year", () => {
    const ask = taughtAsk("w", PLAN, [OLD, SPRING, MAY, ...MINE], undefined);
    expect(ask?.before).toEqual({ from: SPRING.at, to: MAY.at });
    expect(taughtAsk("w", PLAN, [OLD, ...MINE], undefined)?.before).toEqual({ from: OLD.at, to: OLD.at });
    expect(taughtAsk("w", PLAN, MINE, undefined)?.before).toBeUndefined();
  });

  it("leaves out a pass another phone walked in between", () => {
    const between = row("e", "2026-05-14T18:15:00+02:00", 3);
    const ask = taughtAsk("w", PLAN, [OLD, MINE[0] as HistoryRow, between, MINE[1] as HistoryRow], undefined);
    expect(dials(ask)).toEqual([4, 7, 8]);
  });

  it("asks nothing while the walk has no pass in the book", () => {
    expect(taughtAsk("w", PLAN, [OLD], undefined)).toBeNull();
  });
});
