import { describe, expect, it } from "vitest";
import { fakeBook } from "../../../records/fake-book";
import { createStock } from "./stock";

const NOW = "2026-05-14T18:00:00-04:00";

function counted() {
  const store = fakeBook();
  return { store, stock: createStock({ store, now: () => NOW, memberId: () => "me" }) };
}

describe("a stock count", () => {
  it("is an entry of its own", async () => {
    const { store, stock } = counted();
    await stock.count("p", 11.3, { amount: "25", unit: "lb" });
    expect(store.saved.map(([one]) => one?.body)).toEqual([
      {
        kind: "stock_count",
        occurred_at: NOW,
        by: "me",
        product_id: "p",
        left_kg: 11.3,
        left_typed: { amount: "25", unit: "lb" },
        zone_ids: [],
      },
    ]);
  });

  it("counts an empty shelf as zero, not as nothing said", async () => {
    const { store, stock } = counted();
    await stock.count("p", 0, { amount: "0", unit: "lb" });
    expect(store.saved[0]?.[0]?.body).toMatchObject({ left_kg: 0 });
  });
});
