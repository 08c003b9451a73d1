// @vitest-environment happy-dom
import { describe, expect, it } from "vitest";
import type { SchemaDraft } from "../../../forms/schema-form";
import type { Row } from "../../../platform/store/types";
import { fakeBook, groups } from "../../../records/fake-book";
import { buyForm } from "./buy";

const NOW = "2026-05-14T18:00:00-04:00";
const BAG = { net_kg: 18, net_typed: { amount: "18", unit: "kg" } };

async function bought(typed: SchemaDraft, label: object = BAG) {
  const store = fakeBook();
  const parts = { store, system: () => "us" as const, now: () => NOW, memberId: () => "me" };
  const product = { t: "product", id: "p", groups: groups({ label }) } as unknown as Row;
  const form = buyForm(parts, product);
  await form.open(undefined);
  form.change(typed);
  return { store, form, saved: await form.save(undefined) };
}

describe("what was bought", () => {
  it("keeps the bags, the weight of one as the label says it now, and the price as it was paid", async () => {
    const { store } = await bought({ bags: "3", price: "21.5", price_for: "each", where: "By the mill" });
    expect(store.saved[0]?.[0]?.body).toMatchObject({
      kind: "bought",
      product_id: "p",
      bags: 3,
      net_kg: 18,
      net_typed: BAG.net_typed,
      price: 21.5,
      price_for: "each",
      where: "By the mill",
      by: "me",
    });
  });

  it("keeps a weight where it was loose, and no weight of bags then", async () => {
    const { store } = await bought({ bought_kg: { amount: "10", unit: "lb" } });
    const body = store.saved[0]?.[0]?.body;
    expect(body).toMatchObject({
      bought_kg: 10 * 0.45359237,
      bought_typed: { amount: "10", unit: "lb" },
    });
    expect(body).not.toHaveProperty("net_kg");
  });

  it("asks for one of the two, and names both", async () => {
    const { store, form } = await bought({ price: "21.5" });
    expect(store.saved).toEqual([]);
    expect(form.errors.value["bags"]).toBe("Enter at least one of these: Bags; Weight bought.");
  });

  it("asks for no bags of a product whose label names no weight", async () => {
    const { form } = await bought({}, {});
    expect(form.asked.value.map(({ name }) => name)).not.toContain("bags");
    expect(form.errors.value["bought_kg"]).toBe("Enter the weight.");
  });
});
