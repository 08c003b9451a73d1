/** What has a unit is read by the engine itself: fixtures/units_vectors.json, the same as the server's tests read. */
import { computed } from "@preact/signals";
import { afterEach, describe, expect, it, test } from "vitest";
import vectors from "../../../fixtures/units_vectors.json";
import { type Quantity, unitOf } from "../format";
import { realEngine } from "../platform/engine/real-engine";
import type { AnswerTo, Args } from "../platform/engine/types";
import { allRead, parse, readAs, readBy } from "./amount";

type Call = (args: Args<"units.read">) => Promise<AnswerTo<"units.read">>;
const byEngine: Call = async (args) => realEngine("units.read", args);
afterEach(() => readBy(byEngine));

async function read(text: string, unit: string) {
  parse(text, unit);
  await allRead();
  return parse(text, unit);
}

describe("amounts typed with their unit", () => {
  test.each(vectors.texts)("$text wins over the unit chosen", async ({ text, quantity, si, typed }) => {
    const found = await read(text, unitOf(quantity as Quantity, "us").key);
    if (!found.ok) throw new Error(found.message);
    expect(Math.abs(found.si / si - 1)).toBeLessThan(1e-14);
    expect(found.typed).toEqual(typed);
    expect(await read(found.typed.amount, found.typed.unit)).toMatchObject({ si: found.si, typed });
  });

  test.each(vectors.not_texts)("$text is refused as $quantity", async ({ text, quantity }) => {
    const found = await read(text, unitOf(quantity as Quantity, "us").key);
    expect(found.ok ? "" : found.message).toContain("Enter");
  });

  it("says what it was read as, in each of its units", async () => {
    const says = async (amount: string, unit: string) => {
      await read(amount, unit);
      return readAs({ amount, unit });
    };
    expect(await says("NET WT 50 LB (22.6 kg)", "kg")).toBe("50 lb");
    expect(await says("15lb 8oz", "lb")).toBe("15 lb 8 oz");
    expect(await says("1 1/2 lb", "oz")).toBe("1.5 lb");
    expect(await says("5000 sq ft", "m2")).toBe("5,000 ft²");
    expect(await says("22.6", "kg")).toBeUndefined();
  });

  it("keeps so much per another area as it was typed", async () => {
    expect(await read("1 kg per 50 m2", "lb_kft2")).toMatchObject({
      si: 0.02,
      typed: { amount: "1 kg per 50 m2", unit: "lb_kft2" },
    });
  });
});

describe("who is asked", () => {
  it("wakes no engine for a bare number, nor for words without one", async () => {
    let asked = 0;
    readBy(async (args) => {
      asked += 1;
      return byEngine(args);
    });
    expect(parse("22,7", "kg")).toMatchObject({ ok: true, si: 22.7 });
    expect(parse("1 1/2", "lb")).toMatchObject({ ok: true, typed: { amount: "1 1/2", unit: "lb" } });
    expect(parse("lots", "lb")).toMatchObject({ ok: false, code: "not_a_number" });
    expect(asked).toBe(0);
    await read("5 lb", "kg");
    await read("5 lb", "kg");
    expect(asked).toBe(1);
  });

  it("tells whoever reads it once the engine has answered, and is no amount before", async () => {
    let answer: (read: AnswerTo<"units.read">) => void = () => undefined;
    readBy(() => new Promise((resolve) => (answer = resolve)));
    const seen: boolean[] = [];
    const stop = computed(() => parse("50 lb", "kg").ok).subscribe((ok) => seen.push(ok));
    const all = allRead();
    answer(realEngine("units.read", { text: "50 lb", unit: "kg" }));
    await all;
    stop();
    expect(seen).toEqual([false, true]);
  });

  it("asks again before a save what an engine that did not start could not read", async () => {
    readBy(async () => ({
      error: { code: "engine_unavailable", message: "The arithmetic could not be loaded." },
    }));
    expect(await read("50 lb", "kg")).toMatchObject({ ok: false, code: "engine_unavailable" });
    await allRead();
    expect(parse("50 lb", "kg")).toMatchObject({ ok: false, code: "reading" });
  });
});
