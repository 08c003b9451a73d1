// @vitest-environment happy-dom
import { describe, expect, it } from "vitest";
import { fakeBook } from "../../../records/fake-book";
import { countForm } from "./count";

const NOW = "2026-05-14T18:00:00-04:00";

async function counted(amount: string) {
  const store = fakeBook();
  const parts = { store, system: () => "us" as const, now: () => NOW, memberId: () => "me" };
  const form = countForm(parts, "p");
  await form.open(undefined);
  form.change({ left_kg: { amount, unit: "lb" } });
  return { store, form, saved: await form.save(undefined) };
}

describe("a stock count", () => {
  it("is an entry of its own, in SI beside what was typed", async () => {
    const { store } = await counted("25");
    expect(store.saved.map(([one]) => one?.body)).toEqual([
      {
        kind: "stock_count",
        occurred_at: NOW,
        by: "me",
        product_id: "p",
        left_kg: 25 * 0.45359237,
        left_typed: { amount: "25", unit: "lb" },
        zone_ids: [],
      },
    ]);
  });

  it("counts an empty shelf as zero, not as nothing said", async () => {
    expect((await counted("0")).store.saved[0]?.[0]?.body).toMatchObject({ left_kg: 0 });
    const { store, form } = await counted("");
    expect([store.saved, form.errors.value["left_kg"]]).toEqual([
      [],
      "Enter how much is left. 0 if none is.",
    ]);
  });

  it("says the limit in the unit it is typed in", async () => {
    const { form } = await counted("99000000");
    expect(form.errors.value["left_kg"]).toMatch(/too large\. Allowed is 0 to 44,090\u00a0lb\.$/);
  });
});
