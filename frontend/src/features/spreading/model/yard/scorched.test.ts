/** A check that shows far more than the label's rate: that ground is named, kept in the book, and gets no more. */

import { describe, expect, it } from "vitest";
import { realEngine } from "../../../../platform/engine/real-engine";
import { passEntry } from "../../../../records/fake-passes";
import { historyOf } from "../../../../records/pass-history";
import { CHECKED, checkedAt, count, engine, kg, left, passBodies, shelf, striped } from "../fake-spreading";
import { sayScorched, scorchedOf } from "./scorched";

const burnt = () => engine({ "spreading.check": { ...CHECKED, dial: 4, advice: "stop", scorched: true } });

async function scorched() {
  const store = shelf();
  const answers = burnt();
  const spreading = await striped(store, answers);
  await count(spreading, 3);
  expect(await checkedAt(spreading, "5", 4)).toBe(true);
  return { store, answers, spreading };
}

describe("a scorched strip", () => {
  it("is named by its strips, its pass and its zone", async () => {
    const { spreading } = await scorched();
    const { plan, pass } = spreading.draft.value ?? {};
    const found = scorchedOf(spreading.passes.value, pass);
    expect(found).toMatchObject([{ pass: 1, from: 1, to: 3, used_kg: 5, zone_ids: ["verge"] }]);
    expect(plan && found.map((one) => sayScorched(one, plan))).toEqual(["Strips 1 to 3 of pass 1 in Verge"]);
  });

  it("stays in the book with its pass, and the next setting is asked for the rest", async () => {
    const { store, answers, spreading } = await scorched();
    await spreading.go("left");
    await spreading.change(left(spreading.draft.value, { way: "scale", weight: kg("2"), whole: true }));
    await spreading.record();
    expect(passBodies(store)[0].checks[0].scorched).toMatchObject({ from: 1, to: 3, used_kg: 5 });
    await spreading.walkOn();
    const args = answers.askedOf("spreading.next").at(-1);
    expect(args).toMatchObject({ used_kg: 8, area_m2: 200, out: [{ used_kg: 5 }] });
    expect(args?.out?.[0]?.area_m2).toBeCloseTo(36, 9);
    expect(args?.out).toHaveLength(1);
  });

  it("is taken out of what a check in the next pass counts as down before", async () => {
    const { answers, spreading } = await scorched();
    await spreading.go("left");
    await spreading.change(left(spreading.draft.value, { way: "scale", weight: kg("2"), whole: true }));
    await spreading.record();
    await spreading.walkOn();
    await count(spreading, 2);
    await checkedAt(spreading, "1.5", 7);
    const args = answers.askedOf("spreading.check").at(-1);
    expect(args).toMatchObject({ used_kg: 8, out: [{ used_kg: 5 }] });
  });

  it("begins a new stretch even where the setting stays", async () => {
    const { spreading } = await scorched();
    await count(spreading, 1);
    await checkedAt(spreading, "4", 4);
    expect(spreading.draft.value?.pass?.parts.map(({ dial }) => dial)).toEqual([6, 4]);
    expect(scorchedOf([], spreading.draft.value?.pass).map(({ from, to }) => [from, to])).toEqual([
      [1, 3],
      [4, 4],
    ]);
  });
});

describe("the pass after a scorched strip", () => {
  /** Ten strips of 12 m2 in Verge, then Long as one row of 80; the tour and the split are the engine's own. */
  async function second() {
    const store = shelf();
    const answers = engine({
      "spreading.check": { ...CHECKED, dial: 4, advice: "stop", scorched: true },
      "swath.tour": (args) => realEngine("swath.tour", args),
      "spread.finish": (args) => realEngine("spread.finish", args),
    });
    const spreading = await striped(store, answers);
    await count(spreading, 2);
    await checkedAt(spreading, "7", 4);
    await spreading.go("left");
    await spreading.change(left(spreading.draft.value, { way: "scale", weight: kg("4"), whole: true }));
    await spreading.record();
    await spreading.walkOn();
    return { store, answers, spreading };
  }

  it("counts that ground neither as done nor as to go", async () => {
    const { spreading, answers } = await second();
    const { rows = [], out } = spreading.draft.value?.pass ?? {};
    const each = 120 / 10;
    expect(out?.map(({ zone_id }) => zone_id)).toEqual(["verge"]);
    expect(out?.[0]?.area_m2).toBeCloseTo(2 * each, 9);
    expect(rows.at(-1)?.done_area_m2).toBeCloseTo(200 - 2 * each, 9);
    await count(spreading, 3);
    await checkedAt(spreading, "3.5", 7);
    const args = answers.askedOf("spreading.check").at(-1);
    expect(args?.area_done_m2).toBeCloseTo(each, 9);
    expect(args?.area_to_go_m2).toBeCloseTo(200 - 3 * each, 9);
  });

  it("is booked with the ground it really covered, and gives none of it to what it left out", async () => {
    const { store, spreading } = await second();
    await count(spreading, 3);
    await spreading.go("left");
    await spreading.change(left(spreading.draft.value, { way: "scale", weight: kg("0"), whole: true }));
    await spreading.record();
    const [, booked] = passBodies(store);
    expect(booked.area_m2).toBeCloseTo(200 - 24, 9);
    expect(booked.out).toMatchObject([{ zone_id: "verge" }]);
    await spreading.finish();
    const bodies = store.saved.flat().map(({ body }) => body as any);
    const [verge, long] = bodies.find((body) => body?.kind === "spread").zones;
    // 3 kg on the 24 m2, then 3 kg over 176 m2 of pass 1, and 4 kg over the same 176 in pass 2, 96 of them Verge's.
    expect(verge.used_kg).toBeCloseTo(3 + (7 * 96) / 176, 9);
    expect(long.used_kg).toBeCloseTo((7 * 80) / 176, 9);
  });
});

it("a check is held against the label and what earlier passes put down", async () => {
  const answers = engine();
  const spreading = await striped(shelf(), answers);
  await count(spreading, 3);
  await checkedAt(spreading, "8", 5.5);
  const first = answers.askedOf("spreading.check").at(-1);
  expect(first).toMatchObject({ label_share: 1, target_kg_m2: 0.05 });
  expect(first).not.toHaveProperty("used_kg");
});

it("a pass says its sort of product, and an older one has it from its walk", () => {
  const dial = { lowest: 1, highest: 24, step: 0.5 };
  const spreading = passEntry("w", "2026-05-01T12:00:00Z", { kind: "spread", sort: "seed" });
  const entries = [
    passEntry("a", "2026-05-01T10:00:00Z"),
    spreading,
    passEntry("b", "2026-05-02T10:00:00Z", { spread_id: "x", sort: "lime" }),
  ];
  expect(historyOf("rotary", dial, entries).map(({ sort }) => sort)).toEqual(["seed", "lime"]);
});
