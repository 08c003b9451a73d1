// @vitest-environment node
import { effect } from "@preact/signals";
import { describe, expect, it, vi } from "vitest";
import { realEngine } from "../../../platform/engine/real-engine";
import type { EngineCall } from "../../../platform/engine/types";
import { fakeBook, groups } from "../../../records/fake-book";
import { createTotals } from "../../../records/totals";
import { createShopping } from "./shopping";
import "../../../app/kinds";

const DAY = "2026-05-14";
const NOW = `${DAY}T18:00:00-04:00`;
const BAG = { net_kg: 6, net_typed: { amount: "6", unit: "kg" } };

/** Asked of the real engine, in turns as on a phone. */
const call: EngineCall = async (name, args) => realEngine(name, args);

function step(id: string, from_on: string, to_on: string, more: Record<string, object> = {}) {
  return {
    t: "step",
    id,
    groups: groups({
      job: { plan_id: "plan", job: "feed" },
      ground: { zone_ids: ["z"] },
      window: { from_on, to_on },
      product: { product_id: "p", rate_kg_m2: 0.02 },
      ...more,
    }),
  };
}

function shed() {
  const store = fakeBook();
  const name = { name: "Steady", sort: "fertilizer" };
  const ground = { area_m2: 200, method: "typed" };
  store.put({ t: "zone", id: "z", groups: groups({ name: { name: "Verge" }, ground }) });
  store.put({ t: "product", id: "p", groups: groups({ name, label: BAG, price: { price: 20 } }) });
  store.put(step("soon", "2026-05-18", "2026-05-24"));
  store.put(step("later", "2026-09-07", "2026-09-13"));
  const parts = { store, engine: { call }, day: () => DAY, now: () => NOW, memberId: () => "me" };
  const model = createShopping({ ...parts, totals: createTotals(parts) });
  effect(() => void model.list.value);
  const first = () => model.list.value?.value?.products[0];
  return { store, model, first };
}

describe("the shopping list", () => {
  it("counts whole bags for the steps still to be done, needed by the first of them", async () => {
    const { first } = shed();
    await vi.waitFor(() =>
      expect(first()).toMatchObject({ bags: 2, cost: 40, by: "2026-05-18", need_kg: 8 }),
    );
  });

  it("leaves out what is done, put off, over, or needs no product", async () => {
    const { store, model, first } = shed();
    store.put(step("done", "2026-05-20", "2026-05-24", { state: { state: "done" } }));
    store.put(step("put off", "2026-05-20", "2026-05-24", { state: { state: "put_off" } }));
    store.put(step("over", "2026-05-01", "2026-05-13"));
    store.put(step("bare", "2026-05-20", "2026-05-24", { product: {} }));
    await vi.waitFor(() => expect(first()?.steps).toEqual(["soon", "later"]));
    expect(model.list.value?.value?.lacking).toEqual([]);
  });

  it("takes the shed's leftovers first, as they were counted", async () => {
    const { store, first } = shed();
    const body = {
      kind: "stock_count",
      occurred_at: "2026-05-10T18:00:00-04:00",
      product_id: "p",
      left_kg: 5,
    };
    store.put({ t: "entry", id: "count", body });
    await vi.waitFor(() => expect(first()).toMatchObject({ bags: 1, shed_kg: 5, by: "2026-09-07" }));
  });

  it("is ticked off by a purchase, and stands as before once that is undone", async () => {
    const { store, model, first } = shed();
    await vi.waitFor(() => expect(first()?.bags).toBe(2));
    const made = await model.bought({ id: "p", bags: 2 });
    expect(store.saved[0]?.[0]?.body).toMatchObject({
      kind: "bought",
      product_id: "p",
      bags: 2,
      ...BAG,
      price: 20,
      price_for: "each",
    });
    await vi.waitFor(() => expect(first()).toMatchObject({ bags: 0, by: null, shed_kg: 8 }));
    await made.back();
    await vi.waitFor(() => expect(first()?.bags).toBe(2));
  });
});
