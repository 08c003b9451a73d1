/** Two lines a zone: a natural feed in cold soil is put down and waits, a quick one comes free within weeks. */
import { describe, expect, it } from "vitest";
import { dayAfter } from "../../../format";
import { realEngine } from "../../../platform/engine/real-engine";
import { entryOf } from "../../../records/entries";
import { fakeRow, groups, wholeBody } from "../../../records/fake-book";
import { productOf } from "../../../records/products";
import { followLedger, type SoilDay } from "./ledger";
import { unbroken } from "./soil-days";

const TODAY = "2026-05-14";
const zones = ["front", "back"].map((id) =>
  fakeRow({ t: "zone", id, groups: groups({ grass: id === "front" ? { grass: "tall_fescue" } : {} }) }),
);
const call = async (name: never, args: never) => realEngine(name, args);

function fed(product_id: string, zone_id: string) {
  const shares = [{ zone_id, used_kg: 2, rate_kg_m2: 0.02, n_kg_m2: 0.004 }];
  const body = { kind: "spread", zone_ids: [zone_id], product_id, sort: "fertilizer", zones: shares };
  return entryOf(
    fakeRow({
      t: "entry",
      id: product_id,
      body: wholeBody({ ...body, occurred_at: "2026-03-20T10:00:00Z" }),
    }),
  );
}

const product = (id: string, source?: string) =>
  productOf(
    fakeRow({
      t: "product",
      id,
      groups: groups({
        name: { name: id, sort: "fertilizer" },
        label: { net_kg: 10 },
        analysis: source ? { source } : {},
      }),
    }),
  );

const soil = (soil_c: number): SoilDay[] =>
  Array.from({ length: 134 }, (_, at) => ({ date: dayAfter("2026-01-01", at), soil_c }));

async function ledger(days: readonly SoilDay[]) {
  const asking = {
    zones,
    entries: [fed("meal", "front"), fed("urea", "back")],
    products: [product("meal", "natural"), product("urea")],
    soil: days,
    level: "middle" as const,
    clippings: false,
    today: TODAY,
  };
  const found = followLedger({ call: call as never }, () => asking);
  const stop = found.subscribe(() => undefined);
  await expect.poll(() => found.value).toBeDefined();
  stop();
  expect(found.value?.error).toBeUndefined();
  return found.value;
}

describe("the two lines of nitrogen", () => {
  it("let a natural feed wait in cold soil, and a quick one come free, with the year's aim beside", async () => {
    const told = await ledger(soil(6));
    const [front, back] = told?.value?.lines ?? [];
    expect(front?.free_kg_m2).toBeLessThan(0.0005);
    expect(front?.left_kg_m2).toBeGreaterThan(0.0035);
    expect(back?.free_kg_m2).toBeCloseTo(0.004, 6);
    expect(front?.aim_kg_m2).toBeGreaterThan(0.005);
    expect(back?.aim_kg_m2).toBeNull();
    expect(told?.working?.length).toBeGreaterThan(2);
  });

  it("free more of it in warm soil", async () => {
    const [cold] = (await ledger(soil(6)))?.value?.lines ?? [];
    const [warm] = (await ledger(soil(20)))?.value?.lines ?? [];
    expect(warm?.free_kg_m2).toBeGreaterThan((cold?.free_kg_m2 ?? 0) * 3);
  });

  it("say nothing of what is free where nothing tells of the soil", async () => {
    const told = await ledger([]);
    expect(told?.value?.soilKnown).toBe(false);
    expect(told?.value?.lines[0]).toMatchObject({ free_kg_m2: null, left_kg_m2: null });
    expect(told?.value?.lines[0]?.aim_kg_m2).toBeGreaterThan(0);
  });
});

describe("the days of soil", () => {
  it("are those without a gap, back from today", () => {
    const days = soil(6).filter(({ date }) => date !== "2026-05-01");
    expect(
      unbroken(days, TODAY)
        .map(({ date }) => date)
        .at(0),
    ).toBe("2026-05-02");
    expect(unbroken([], TODAY)).toEqual([]);
  });
});
