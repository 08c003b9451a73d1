import { describe, expect, it } from "vitest";
import { fakeBook, groups, wholeBody } from "../../../records/fake-book";
import { productOf, type Spreader, spreaderOf } from "../../../records/products";
import { historyOf } from "../../log/model/log";
import { type CurveAnswer, createCurve, curveArgs, learnedPasses, productsMet } from "./curve";

const PASS = wholeBody({
  kind: "pass",
  spreader_id: "rotary",
  area_m2: 100,
  measured: "scale",
  zone_ids: [],
});
const ROTARY = {
  t: "spreader",
  id: "rotary",
  groups: groups({
    name: { name: "Rotary" },
    dial: { lowest: 1, highest: 24, step: 0.5 },
    walking: { swath_m: 1.5, speed_m_s: 1.3 },
  }),
};

function book() {
  const store = fakeBook();
  const put = (id: string, day: number, facts: object) =>
    store.put({ t: "entry", id, body: { ...PASS, occurred_at: `2026-05-0${day}T18:00:00+02:00`, ...facts } });
  store.put(ROTARY);
  put("early", 1, { product_id: "lime", dial: 8, used_kg: 3 });
  put("late", 3, { product_id: "slow", dial: 6, used_kg: 2 });
  put("middle", 2, {
    product_id: "slow",
    dial: 5,
    used_kg: 1.5,
    parts: [
      { dial: 5, area_m2: 60, used_kg: 0.8, measured: "scale", left_kg: 3 },
      { dial: 6, area_m2: 40, used_kg: 0.7, measured: "scale", left_kg: 2.3 },
    ],
  });
  const row = store.row("spreader", "rotary").value;
  if (!row) throw new Error("the spreader was put");
  return { store, spreader: spreaderOf(row) as Spreader };
}

const past = (index: number, facts: Partial<CurveAnswer["past"][number]> = {}) => ({
  index,
  dial: 6,
  rate_kg_m2: 0.02,
  measured_kg_m2: 0.02,
  same_product: true,
  bad_chance: 0.01,
  left_out: null,
  ...facts,
});

const WHO = { now: () => "2026-05-14T18:00:00+02:00", memberId: () => "me" };

describe("what the curve is asked", () => {
  it("is all a spreader walked, oldest first, at today's swath and speed", () => {
    const { store, spreader } = book();
    const rows = createCurve({ ...WHO, store }).rows(spreader);
    store.put({ t: "product", id: "slow", groups: groups({ granules: { granules: "medium" } }) });
    const product = productOf(store.row("product", "slow").value as never);
    const args = curveArgs(spreader, product, "slow", rows);
    expect(args).toMatchObject({
      dial: { lowest: 1, highest: 24, step: 0.5 },
      product: { id: "slow", granules: "medium" },
      swath_m: 1.5,
      speed_m_s: 1.3,
      history: [
        { product: "lime", dial: 8 },
        { dial: 5, area_m2: 60 },
        { dial: 6, area_m2: 40 },
        { dial: 6 },
      ],
    });
    expect(curveArgs(spreader, undefined, "gone", rows)).toMatchObject({ product: { id: "gone" } });
  });

  it("offers the products met, the last walked first", () => {
    const { store, spreader } = book();
    expect(productsMet(createCurve({ ...WHO, store }).rows(spreader))).toEqual(["slow", "lime"]);
  });
});

describe("the passes it rests on", () => {
  it("are told apart: this product, another, unlike the others, left out", () => {
    const { store, spreader } = book();
    const rows = createCurve({ ...WHO, store }).rows(spreader);
    const answer = {
      points: [],
      passes_used: 3,
      band_share: 0.4,
      within_share: 0.2,
      past: [
        past(0, { same_product: false }),
        past(1, { bad_chance: 0.8 }),
        past(2),
        past(3, { left_out: "bad", bad_chance: null }),
        past(9),
      ],
    };
    const found = learnedPasses(answer, rows);
    expect(found.map(({ key, mark }) => [key, mark])).toEqual([
      ["late", "left_out"],
      ["middle.1", "this"],
      ["middle.0", "doubtful"],
      ["early", "other"],
    ]);
  });

  it("are left out and taken in again without anything being wiped", async () => {
    const { store, spreader } = book();
    const model = createCurve({ ...WHO, store });
    const entry = () => model.entryNow("late") as NonNullable<ReturnType<typeof model.entryNow>>;
    const told = () => model.rows(spreader).at(-1)?.past.bad;
    await model.setLearning(entry(), true, "The gate stuck");
    expect(told()).toBe(true);
    await model.setLearning(entry(), false, "");
    expect(told()).toBeUndefined();
    expect(historyOf(entry()).map(({ what, value }) => [what, value])).toEqual([
      ["Logged for", "2026-05-03T18:00:00+02:00"],
      ["Ignored (earlier)", "The gate stuck"],
      ["Used again", ""],
    ]);
    expect(entry().body["bad"]).toBeUndefined();
  });
});
