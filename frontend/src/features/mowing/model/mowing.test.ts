import { describe, expect, it } from "vitest";
import { realEngine } from "../../../platform/engine/real-engine";
import type { EngineCall } from "../../../platform/engine/types";
import { fakeBook, groups } from "../../../records/fake-book";
import { createWriting } from "../../../records/log/writing";
import { lawnOf } from "./lawns";
import { alongWith, createMowForm, lastCutMm } from "./mow-form";
import { blankMower, mowerFormOf, mowerGroups } from "./mower-form";
import { type mowerOf, reachOf, sharpenArgs } from "./mowers";
import { createMowing } from "./mowing";
import { nextDirection } from "./mows";
import { heightArgs } from "./target";

const MOWER = "018f0000-0000-7000-8000-00000000000a";
const ZONE = "018f0000-0000-7000-8000-00000000000c";
const DAY = "2026-05-14";
const INCHES = { amount: "3", unit: "height_in" };
const DECK = {
  notches: [
    { label: "4", measured_mm: 76.2, measured_typed: INCHES },
    { label: "5", measured_mm: 101.6 },
  ],
};

function start(mows: readonly Record<string, unknown>[] = []) {
  const store = fakeBook();
  let count = 0;
  store.newId = () => `018f0000-0000-7000-8000-0000000001${String(count++).padStart(2, "0")}`;
  store.put({ t: "mower", id: MOWER, groups: groups({ name: { name: "Push mower" }, deck: DECK }) });
  const cut = { cut_height_mm: 76.2, mow_every_days: 3.5 };
  store.put({
    t: "zone",
    id: ZONE,
    groups: groups({ name: { name: "Verge" }, grass: { grass: "tall_fescue" }, cut }),
  });
  mows.forEach((facts, at) => {
    const occurred_at = `2026-05-${String(10 - at).padStart(2, "0")}T18:00:00+02:00`;
    store.put({ t: "entry", id: `m${at}`, body: { kind: "mow", occurred_at, zone_ids: [ZONE], ...facts } });
  });
  const parts = {
    store,
    engine: { call: (async (name, args) => realEngine(name, args)) as EngineCall },
    system: () => "us" as const,
    day: () => DAY,
    now: () => `${DAY}T18:00:00+02:00`,
    memberId: () => undefined,
  };
  const made = createMowing(parts);
  const { add } = createWriting(parts);
  return { ...made, store, form: createMowForm(made.mowing, { zoneIds: [ZONE], add }) };
}

type Started = ReturnType<typeof start>;
const body = ({ store }: Started) => store.saved.at(-1)?.[0]?.body as Record<string, unknown>;

describe("a mower's form", () => {
  const filled = (heights: readonly string[], labels = ["1", "2", "3", "4", "5"]) => ({
    ...blankMower("us"),
    name: "Push mower",
    notches: heights.map((amount, at) => ({
      label: labels[at] ?? "",
      height: { amount, unit: "height_in" },
    })),
  });

  it("keeps the notches that were measured, as typed and in mm", () => {
    const { deck } = mowerGroups(filled(["1.5", "", "3"]), {});
    expect(deck?.["notches"]).toEqual([
      { label: "1", measured_mm: expect.closeTo(38.1), measured_typed: { amount: "1.5", unit: "height_in" } },
      { label: "3", measured_mm: expect.closeTo(76.2), measured_typed: INCHES },
    ]);
  });

  it.each([
    [["1", "1"], "height 1", "Two notches have this height. Measure both again."],
    [["0.1"], "height 0", /^Measured height is too small. Allowed is 0.1969 to 7.874.in.$/],
    [["9"], "height 0", /^Measured height is too large. Allowed is 0.1969 to 7.874.in.$/],
    [["tall"], "height 0", /not a number/],
  ])("names what is wrong with %s", (heights, field, says) => {
    const errors: Record<string, string> = {};
    mowerGroups(filled(heights), errors);
    expect(errors[field]).toMatch(says);
  });

  it("wants a label beside a height, and no label twice", () => {
    const errors: Record<string, string> = {};
    mowerGroups(filled(["1", "2", "3"], ["", "low", "low"]), errors);
    expect(errors).toEqual({
      "label 0": "Enter what is written beside this notch.",
      "label 2": "Two notches have this label.",
    });
  });

  it("shows what stands as it was typed", () => {
    const { store } = start();
    const row = store.row("mower", MOWER).value as never;
    expect(mowerFormOf(row, "metric").notches[0]).toEqual({ label: "4", height: INCHES });
    expect(mowerFormOf(row, "metric").notches[1]?.height).toEqual({ amount: "101.6", unit: "height_mm" });
  });

  it("says the notch measured once more, and leaves the others", async () => {
    const { mowers, store } = start();
    const mower = mowers.all.value[0] as never;
    const check = mowers.heightCheck(mower);
    await check.open(undefined);
    check.change({ label: "5", height: { amount: "3", unit: "height_in" } });
    expect(await check.save(undefined)).toBeUndefined();
    expect(check.errors.value["height"]).toBe("Notch 4 has this height. Measure both again.");
    check.change({ height: { amount: "3.9", unit: "height_in" } });
    await check.save(undefined);
    const deck = store.row("mower", MOWER).value?.groups["deck"]?.value as typeof DECK;
    expect(deck.notches[0]).toEqual(DECK.notches[0]);
    expect(deck.notches[1]?.measured_mm).toBeCloseTo(99.06);
  });
});

describe("what a mower's blade is asked with", () => {
  it("is every mow that names it, and those that name none where it is the only one", () => {
    const { mows, mowers } = start([{ mower_id: MOWER, minutes: 30 }, { minutes: 20 }, { mower_id: ZONE }]);
    const mower = { ...(mowers.all.value[0] as ReturnType<typeof mowerOf>), sharpened_on: "2026-05-01" };
    const asked = (only: boolean) => sharpenArgs(mower, mows.all.value, only, DAY).mows;
    expect(asked(true)).toEqual([
      { date: "2026-05-10", minutes: 30 },
      { date: "2026-05-09", minutes: 20 },
    ]);
    expect(asked(false)).toHaveLength(1);
    expect(
      realEngine("mowing.sharpen", sharpenArgs(mower, mows.all.value, true, DAY)).value?.hours,
    ).toBeCloseTo(50 / 60);
  });

  it("leaves the rest of the blade as it was on the day it is sharpened", async () => {
    const { store, mowers } = start();
    store.put({
      t: "mower",
      id: MOWER,
      groups: groups({
        name: { name: "Push mower" },
        blade: { sharpened_on: "2026-01-02", hours_between: 25 },
      }),
    });
    await mowers.sharpened(mowers.all.value[0] as never);
    expect(store.saved.at(-1)?.[0]?.set).toEqual({ blade: { sharpened_on: DAY, hours_between: 25 } });
  });
});

describe("a mow with details", () => {
  it("starts with what was used last, walked the next way round, and nothing measured", async () => {
    const made = start([
      {
        mower_id: MOWER,
        notch: "4",
        cut_height_mm: 76.2,
        clippings: "left",
        direction: "lengthwise",
        height_before_mm: 100,
      },
    ]);
    await made.form.open(undefined);
    const { notch, mower_id, clippings, direction, cut_height_mm, height_before_mm } =
      made.form.form.value ?? {};
    expect({ notch, mower_id, clippings, direction }).toEqual({
      notch: "4",
      mower_id: MOWER,
      clippings: "left",
      direction: "crosswise",
    });
    expect([cut_height_mm, height_before_mm]).toEqual([INCHES, { amount: "", unit: "height_in" }]);
  });

  it.each([
    ["a look of today", "2026-05-14T09:00:00+02:00", "4"],
    ["a look before the last mow", "2026-05-09T09:00:00+02:00", ""],
    ["a look of last week", "2026-05-11T09:00:00+02:00", ""],
  ])("starts with the height of %s: %s", async (_, occurred_at, amount) => {
    const made = start([{ cut_height_mm: 76.2 }]);
    const typed = { amount: "4", unit: "height_in" };
    const body = { kind: "reading", measures: "grass", height_mm: 101.6, height_typed: typed, occurred_at };
    made.store.put({ t: "entry", id: "look", body: { ...body, zone_ids: [ZONE] } });
    await made.form.open(undefined);
    expect(made.form.form.value?.["height_before_mm"]).toEqual({ amount, unit: "height_in" });
  });

  it("takes the only mower there is, and forgets a notch that mower has no more", async () => {
    const made = start([{ mower_id: MOWER, notch: "9", cut_height_mm: 76.2 }]);
    await made.form.open(undefined);
    expect(made.form.form.value?.["notch"]).toBe("");
    const fresh = start();
    await fresh.form.open(undefined);
    expect(fresh.form.form.value?.["mower_id"]).toBe(MOWER);
  });

  it("sets the height by the notch, and no notch by another height", async () => {
    const { form, mowers } = start();
    await form.open(undefined);
    expect(alongWith(mowers, "notch", "4", form)).toEqual({ cut_height_mm: INCHES });
    expect(alongWith(mowers, "notch", "5", form)).toEqual({
      cut_height_mm: { amount: "4", unit: "height_in" },
    });
    expect(alongWith(mowers, "cut_height_mm", INCHES, form)).toEqual({ notch: "" });
  });

  it.each([
    ["ruler", { height_before_mm: { amount: "5", unit: "height_in" } }, 3],
    [
      "over_notch",
      { height_before_mm: { amount: "4", unit: "height_in" }, height_before_by: "over_notch" },
      8,
    ],
  ])("keeps how far off a height read by %s likely is, by the engine", async (by, typed, error) => {
    const made = start([{ mower_id: MOWER, notch: "4", cut_height_mm: 76.2 }]);
    await made.form.open(undefined);
    made.form.change(typed);
    await made.form.save(undefined);
    expect(body(made)).toMatchObject({ height_before_by: by, height_before_error_mm: error });
  });

  it("says nothing of a height that was not read", async () => {
    const made = start();
    await made.form.open(undefined);
    await made.form.save(undefined);
    expect(Object.keys(body(made)).filter((name) => name.startsWith("height"))).toEqual([]);
  });

  it("makes one entry of two saves at once", async () => {
    const made = start();
    await made.form.open(undefined);
    await Promise.all([made.form.save(undefined), made.form.save(undefined)]);
    expect(made.store.saved).toHaveLength(1);
  });

  it("knows no last cut where the last mow did not say one, or zones differ", () => {
    expect(lastCutMm(start([{ cut_height_mm: 76.2 }]).mows, [ZONE])).toBe(76.2);
    expect(lastCutMm(start([{}, { cut_height_mm: 76.2 }]).mows, [ZONE])).toBeUndefined();
    expect(lastCutMm(start([{ cut_height_mm: 76.2 }]).mows, [ZONE, MOWER])).toBeUndefined();
  });
});

describe("what the engine is asked on the way", () => {
  it("turns the direction at each mow", () => {
    expect(["lengthwise", "crosswise", "diagonal", "diagonal_back", undefined].map(nextDirection)).toEqual([
      "crosswise",
      "diagonal",
      "diagonal_back",
      "lengthwise",
      undefined,
    ]);
  });

  it("is the mower's tallest notch for its highest setting, else what was said", () => {
    const { mowers } = start();
    const mower = mowers.all.value[0] as ReturnType<typeof mowerOf>;
    expect(reachOf(mower).highest_mm).toBe(101.6);
    expect(reachOf({ ...mower, notches: [], highest_mm: 90 })).toEqual({ highest_mm: 90 });
    expect(reachOf(undefined)).toEqual({});
  });

  it("is no height where no range is printed for a grass", () => {
    const { zones } = start();
    const lawn = lawnOf(zones.value[0] as never);
    expect(heightArgs(lawn, { drought: true })).toMatchObject({ turf: "cool", own_mm: 76.2, drought: true });
    expect(heightArgs({ ...lawn, grass: undefined }, { drought: false })).toBeNull();
  });
});
