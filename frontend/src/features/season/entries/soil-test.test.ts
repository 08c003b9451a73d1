// @vitest-environment happy-dom
import { describe, expect, it, vi } from "vitest";
import { createEntryForm } from "../../../forms/entry-form";
import type { SchemaDraft } from "../../../forms/schema-form";
import type { Entry } from "../../../records/entries";
import { fakeBook } from "../../../records/fake-book";

vi.mock("../../../records/log/named", async () =>
  (await import("../../../records/log/names")).sayingNames(() => undefined),
);

const { soilTest } = await import("./soil-test");

const NOW = "2026-05-14T18:00:00-04:00";
const plain = (text: string) => text.replaceAll("\u00a0", " ");

async function typed(draft: SchemaDraft) {
  const store = fakeBook();
  const parts = { store, system: () => "us" as const, now: () => NOW, memberId: () => "me" };
  if (!soilTest.form) throw new Error("a soil test has a form");
  const form = createEntryForm(parts, { kind: "soil_test", words: soilTest.form });
  await form.open(undefined);
  form.change(draft);
  await form.save(undefined);
  return { body: store.saved[0]?.[0]?.body as Entry["body"] | undefined, errors: form.errors.value };
}

describe("a soil test", () => {
  it("is kept in mg/kg beside the unit the lab wrote", async () => {
    const { body } = await typed({
      ph: "6.3",
      p_mg_kg: { amount: "60", unit: "soil_lb_acre" },
      k_mg_kg: { amount: "120", unit: "ppm" },
      organic_share: "4.5",
      lab: "County lab",
    });
    expect(body).toMatchObject({
      kind: "soil_test",
      ph: 6.3,
      p_mg_kg: 30, // 2 lb/acre are 1 ppm
      p_typed: { amount: "60", unit: "soil_lb_acre" },
      k_mg_kg: 120,
      organic_share: 0.045,
      lab: "County lab",
    });
  });

  it("may say any one thing, but not nothing", async () => {
    expect((await typed({ buffer_ph: "6.8" })).body).toMatchObject({ buffer_ph: 6.8 });
    const { body, errors } = await typed({ lab: "County lab" });
    expect(body).toBeUndefined();
    expect(errors["ph"]).toMatch(
      /^Enter at least one of these: pH; Buffer pH; Phosphorus, P; Potassium, K; Org/,
    );
  });

  it("is said in the lab's own units, and in the reader's where those are not on record", () => {
    const entry = (body: object) => ({ body, zoneIds: [] }) as unknown as Entry;
    const both = entry({
      ph: 6.3,
      p_mg_kg: 30,
      p_typed: { amount: "60", unit: "soil_lb_acre" },
      k_mg_kg: 120.4,
      p_method: "bray_1",
      organic_share: 0.045,
    });
    expect(plain(soilTest.brief(both, "us"))).toBe("pH 6.3, P 60 lb/acre, K 120 ppm");
    const facts = Object.fromEntries(
      soilTest.facts(both, "metric").map(([name, says]) => [name, plain(says)]),
    );
    expect(facts).toEqual({
      pH: "6.3",
      "Phosphorus, P": "60 lb/acre",
      "Phosphorus method": "Bray 1",
      "Potassium, K": "120 mg/kg",
      "Organic matter": "4.5%",
    });
  });
});
