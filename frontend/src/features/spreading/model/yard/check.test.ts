import { describe, expect, it } from "vitest";
import { settled } from "../../../../records/fake-book";
import {
  CHECKED,
  checkedAt,
  count,
  engine,
  form,
  inTheYard,
  kg,
  left,
  passBodies,
  shelf,
  striped,
  weighed,
} from "../fake-spreading";

describe("a look on the way", () => {
  it("changes nothing by itself, whatever is typed", async () => {
    const store = shelf();
    const spreading = await striped(store);
    await count(spreading, 3);
    const before = structuredClone(spreading.draft.value?.pass);
    await spreading.openCheck();
    await spreading.change(form(spreading, { way: "scale", weight: kg("8.5") }));
    const shown = spreading.checked.subscribe(() => undefined);
    await settled();
    expect(spreading.checked.value?.value).toMatchObject({ dial: 5.5, advice: "lower" });
    expect(spreading.draft.value?.pass).toEqual(before);
    await spreading.back();
    expect(spreading.step.value).toBe("yard");
    expect(spreading.draft.value?.pass).toEqual(before);
    shown();
  });

  it("shows no setting for an older entry while the newer one is being read", async () => {
    const answers = engine();
    let held: Promise<void> | undefined;
    const call: typeof answers.call = async (name, args) => {
      if (name === "spread.close_pass") await held;
      return answers.call(name, args);
    };
    const spreading = await striped(shelf(), { ...answers, call });
    await count(spreading, 3);
    await spreading.openCheck();
    await spreading.change(form(spreading, { way: "scale", weight: kg("8.5") }));
    const shown = spreading.checked.subscribe(() => undefined);
    await settled();
    expect(spreading.checked.value?.value).toMatchObject({ dial: 5.5 });
    let letGo: () => void = () => undefined;
    held = new Promise((resolve) => {
      letGo = resolve;
    });
    await spreading.change(form(spreading, { weight: kg("7") }));
    await settled();
    expect(spreading.checked.value).toBeUndefined();
    letGo();
    await settled();
    expect(spreading.checked.value?.value).toMatchObject({ dial: 5.5 });
    expect(answers.asked.at(-1)).toMatchObject({ name: "spreading.check", args: { now_kg: 7 } });
    shown();
  });

  it("asks the engine with the ground done since the setting, the ground to go and what is there", async () => {
    const answers = engine();
    const spreading = await striped(shelf(), answers);
    await count(spreading, 5);
    await checkedAt(spreading, "8", 5.5);
    const args = answers.askedOf("spreading.check").at(-1);
    expect(args).toMatchObject({ dial_now: 6, now_kg: 8, left_kg: 10, passes_to_go: 2, area_m2: 200 });
    expect(args).toMatchObject({ area_done_m2: 60, area_to_go_m2: 140, swath_m: 1.5, history: [] });
  });

  it("begins a new stretch with a new setting, and the first is history for the second look", async () => {
    const answers = engine();
    const spreading = await striped(shelf(), answers);
    await count(spreading, 5);
    await checkedAt(spreading, "8", 5.5);
    expect(spreading.draft.value?.pass).toMatchObject({
      dial: 5.5,
      expect: CHECKED.likely_end_kg,
      part: { there_kg: 8, rows: 5, area_m2: 60 },
      parts: [{ dial: 6, area_m2: 60, used_kg: 2, measured: "scale", left_kg: 8 }],
      checks: [{ row: 5, area_done_m2: 60, now_kg: 8, dial_before: 6, dial_after: 5.5 }],
    });
    expect(spreading.step.value).toBe("yard");
    await count(spreading, 2);
    await checkedAt(spreading, "7.5", 5.5);
    const args = answers.askedOf("spreading.check").at(-1);
    expect(args).toMatchObject({ left_kg: 8, now_kg: 7.5, dial_now: 5.5, area_to_go_m2: 116 });
    expect(args?.area_done_m2).toBeCloseTo(24, 9);
    expect(args?.history).toMatchObject([{ product: "slow", dial: 6, area_m2: 60, used_kg: 2, left_kg: 8 }]);
  });

  it("keeps the setting where the person keeps it, and counts on from what was seen", async () => {
    const spreading = await striped();
    await count(spreading, 5);
    await checkedAt(spreading, "8", 6);
    expect(spreading.draft.value?.pass).toMatchObject({ dial: 6, parts: [], part: { rows: 0 } });
    expect(spreading.draft.value?.pass?.checks).toHaveLength(1);
    expect(spreading.standing.value?.expected_kg).toBe(8);
    await spreading.count();
    expect(spreading.standing.value?.expected_kg).toBeCloseTo(8 - 0.03 * 12, 9);
  });

  it("is not noted twice by two quick taps", async () => {
    const spreading = await striped();
    await count(spreading, 5);
    await spreading.openCheck();
    await spreading.change(form(spreading, { way: "scale", weight: kg("8") }));
    await Promise.all([spreading.decide(5.5), spreading.decide(5.5)]);
    await spreading.decide(5.5);
    expect(spreading.draft.value?.pass?.parts).toHaveLength(1);
    expect(spreading.draft.value?.pass?.checks).toHaveLength(1);
  });

  it("refuses more than there was and leaves the pass as it is", async () => {
    const spreading = await striped();
    await count(spreading, 2);
    expect(await checkedAt(spreading, "12", 5.5)).toBe(false);
    expect(spreading.step.value).toBe("check");
    expect(spreading.draft.value?.pass?.checks).toEqual([]);
    expect(spreading.draft.value?.check.weight.amount).toBe("12");
  });

  it("asks how much of a zone without strips is walked, and takes it from the engine", async () => {
    const answers = engine();
    const spreading = await inTheYard(shelf(), answers);
    await spreading.openCheck();
    await spreading.change(form(spreading, { way: "scale", weight: kg("9"), covered: "1 of 4" }));
    expect(await spreading.decide(5.5)).toBe(true);
    const args = answers.askedOf("spreading.check").at(-1);
    expect(args).toMatchObject({ area_done_m2: 30, area_to_go_m2: 170 });
    expect(spreading.draft.value?.pass).toMatchObject({ done: 0, part: { area_m2: 30, there_kg: 9 } });
  });

  it("does not take a level read at one strip for the next", async () => {
    const spreading = await striped();
    await count(spreading, 2);
    await spreading.openCheck();
    await spreading.change(form(spreading, { way: "level", level_share: 0.5 }));
    await spreading.back();
    await spreading.count();
    expect(spreading.draft.value?.check).toMatchObject({ way: "level", level_share: null });
  });

  it("lets the dial be turned by hand only before anything is walked at it", async () => {
    const spreading = await striped();
    expect(spreading.canTurn.value).toBe(true);
    await spreading.count();
    expect(spreading.canTurn.value).toBe(false);
    await spreading.setDial(9);
    expect(spreading.draft.value?.pass?.dial).toBe(6);
  });

  it("asks the curve what a setting of one's own puts down", async () => {
    const curve = { points: [{ dial: 8, rate_kg_m2: { low: 0.04, mid: 0.05, high: 0.06 } }], past: [] };
    const spreading = await striped(shelf(), engine({ "spreading.curve": curve }));
    await spreading.setDial(8);
    expect(spreading.draft.value?.pass).toMatchObject({ dial: 8, rate_kg_m2: 0.05 });
    await spreading.count();
    expect(spreading.standing.value?.expected_kg).toBeCloseTo(10 - 0.05 * 12, 9);
  });
});

describe("the book after a pass of several settings", () => {
  it("holds every stretch; their ground and product add up to the pass", async () => {
    const store = shelf();
    const spreading = await striped(store);
    await count(spreading, 5);
    await checkedAt(spreading, "8", 5.5);
    await count(spreading, 6);
    await weighed(spreading, "5.5");
    const [body] = passBodies(store);
    expect(body).toMatchObject({ dial: 5.5, area_m2: 200, used_kg: 4.5, left_kg: 5.5, pattern: "plain" });
    expect(body.parts).toEqual([
      { dial: 6, area_m2: 60, used_kg: 2, measured: "scale", left_kg: 8 },
      { dial: 5.5, area_m2: 140, used_kg: 2.5, measured: "scale", left_kg: 5.5 },
    ]);
    expect(body.checks).toHaveLength(1);
    const sum = (key: "area_m2" | "used_kg") =>
      body.parts.reduce((all: number, one: any) => all + one[key], 0);
    expect(sum("area_m2")).toBeCloseTo(body.area_m2, 9);
    expect(sum("used_kg")).toBeCloseTo(body.used_kg, 9);
  });

  it("has no stretches where one setting served throughout, checks or not", async () => {
    const store = shelf();
    const spreading = await striped(store);
    await count(spreading, 5);
    await checkedAt(spreading, "8", 6);
    await count(spreading, 6);
    await weighed(spreading, "5");
    expect(passBodies(store)[0]).not.toHaveProperty("parts");
    expect(passBodies(store)[0].checks).toHaveLength(1);
  });

  it("gives the next pass both stretches as history", async () => {
    const answers = engine();
    const spreading = await striped(shelf(), answers);
    await count(spreading, 5);
    await checkedAt(spreading, "8", 5.5);
    await count(spreading, 6);
    await weighed(spreading, "5.5");
    await spreading.walkOn();
    const args = answers.askedOf("spreading.next").at(-1);
    expect(args?.history?.map(({ dial, area_m2 }) => [dial, area_m2])).toEqual([
      [6, 60],
      [5.5, 140],
    ]);
    expect(spreading.draft.value?.pass).toMatchObject({ number: 2, pattern: "offset", done: 0, parts: [] });
    expect(spreading.draft.value?.pass?.rows).toHaveLength(11);
  });

  it("asks whether all the ground was covered where only some strips are counted", async () => {
    const store = shelf();
    const spreading = await striped(store);
    await count(spreading, 5);
    await spreading.go("left");
    await spreading.change(left(spreading.draft.value, { way: "scale", weight: kg("8") }));
    expect(await spreading.record()).toBe(false);
    await spreading.change(left(spreading.draft.value, { whole: false }));
    expect(await spreading.record()).toBe(true);
    expect(passBodies(store)[0]).toMatchObject({ area_m2: 60, used_kg: 2 });
  });

  it("takes the counted strips as the ground covered where it ran out, and lets them be put right", async () => {
    const store = shelf();
    const spreading = await striped(store);
    await count(spreading, 5);
    await spreading.ranOut();
    expect(spreading.draft.value?.left).toMatchObject({ way: "ran_out", covered: "5 of 11" });
    await spreading.change(left(spreading.draft.value, { covered: "6 of 11" }));
    expect(await spreading.record()).toBe(true);
    expect(passBodies(store)[0]).toMatchObject({ ran_out: true, area_m2: 72, used_kg: 10, left_kg: 0 });
  });

  it("carries that the product was damp, so that it is not learned from", async () => {
    const store = shelf();
    const spreading = await striped(store);
    await spreading.setDamp(true);
    await weighed(spreading, "6");
    expect(passBodies(store)[0].damp).toBe(true);
    expect(spreading.history.value[0]?.damp).toBe(true);
  });

  it("opens a pass taken back with its strips, stretches and looks as they were", async () => {
    const spreading = await striped();
    await count(spreading, 5);
    await checkedAt(spreading, "8", 5.5);
    await count(spreading, 6);
    const before = structuredClone(spreading.draft.value?.pass);
    await weighed(spreading, "5.5");
    await spreading.takeBack();
    const { id: _, ...again } = spreading.draft.value?.pass ?? {};
    const { id: __, ...was } = before ?? {};
    expect(again).toEqual(was);
  });
});
