/** A field of one group must not stand for another's, nor one of another kind of entry (A5, A6). */
import { describe, expect, it } from "vitest";
import { analysisOf } from "../features/spreading/model/asks";
import { finishArgs } from "../features/spreading/model/sums";
import type { Plan } from "../features/spreading/model/types";
import { createToday } from "../features/today/model/today";
import { sayRefusal } from "../forms/refusal";
import { entryOf, totalsOf } from "./entries";
import { fakeBook, fakeEngine, fakeRow, groups, settled, wholeBody } from "./fake-book";
import { fieldsOf, MOST_CORNERS, ownFields } from "./kinds";
import { productOf, spreaderOf } from "./products";
import { needsMending, soundRow } from "./reading";
import { sickRecords } from "./sick";

/** As every model is handed it. */
const asRead = (row: Parameters<typeof fakeRow>[0]) => soundRow(fakeRow(row));

const product = (extra: Record<string, object>) =>
  productOf(
    asRead({
      t: "product",
      id: "p",
      groups: groups({
        name: { name: "Slow 24", sort: "fertilizer" },
        label: { net_kg: 20, coverage_m2: 400 },
        analysis: { n_percent: 24, slow_n_share: 0.5 },
        caution: { keep_off_hours: 24, interval_days: 42 },
        ...extra,
      }),
    }),
  );

describe("a field of another group", () => {
  it("does not shadow the one that was checked: a wrong dose, a keep-off of nothing", () => {
    const shadow = {
      n_percent: 0,
      keep_off_hours: 0,
      interval_days: 0,
      net_kg: 1,
      coverage_m2: 9999,
      name: "X",
    };
    for (const group of ["granules", "price", "deleted", "later_group"]) {
      const found = product({ [group]: { ...shadow, granules: "fine" } });
      expect(found).toMatchObject({ n_percent: 24, keep_off_hours: 24, interval_days: 42, net_kg: 20 });
      expect([found.coverage_m2, found.name]).toEqual([400, "Slow 24"]);
    }
  });

  it("is not taken from a group where only a later build would read it", () => {
    const found = product({ price: { price: 20, later: 1 } });
    expect(found.price).toBe(20);
    expect(found).not.toHaveProperty("later");
  });

  it("does not shadow a spreader's", () => {
    const row = asRead({
      t: "spreader",
      id: "s",
      groups: groups({
        name: { name: "Rotary", sort: "rotary" },
        dial: { lowest: 1, highest: 10, step: 0.5 },
        walking: { swath_m: 2, speed_m_s: 1.3, lowest: 9, holds_kg: 400, dial: "x", id: "other" },
      }),
    });
    expect(spreaderOf(row)).toMatchObject({ id: "s", dial: { lowest: 1, highest: 10 }, swath_m: 2 });
    expect(spreaderOf(row).holds_kg).toBeUndefined();
  });

  it("outside its limits is left out, and named", () => {
    const { fields, sick } = ownFields("product", "analysis", {
      n_percent: 150,
      p2o5_percent: "4",
      k2o_percent: 3,
    });
    expect([fields, sick]).toEqual([{ k2o_percent: 3 }, ["n_percent", "p2o5_percent"]]);
  });

  it("is left out with its fellows where they are more than the bag together, and named", () => {
    const whole = { n_percent: 60, p2o5_percent: 60, k2o_percent: 0, slow_n_share: 0.5 };
    const { fields, sick } = ownFields("product", "analysis", whole);
    expect([fields, sick]).toEqual([{ slow_n_share: 0.5 }, ["n_percent", "p2o5_percent", "k2o_percent"]]);
    expect(ownFields("product", "analysis", { ...whole, p2o5_percent: 40 }).sick).toEqual([]);
    const spreading = ownFields("entry", "spread", { n_percent: 60, p2o5_percent: 60, used_kg: 2 });
    expect([spreading.fields, spreading.sick]).toEqual([{ used_kg: 2 }, ["n_percent", "p2o5_percent"]]);
  });

  it("is refused in the unit of its field, by the engine as by the form", () => {
    const facts = { code: "over_whole", name: "n_percent", value: 120, low: 0, high: 100 };
    const said = sayRefusal({ ...facts, message: "More together than the whole product." }, "us");
    expect(said).toBe("More together than the whole product. Allowed is 0 to 100%.");
  });

  it("does not hold up a walk that began before it was refused", () => {
    const plan = { zones: [{ id: "a", area_m2: 9 }], n_percent: 60, p2o5_percent: 60, slow_n_share: 0.5 };
    expect(finishArgs(plan as unknown as Plan, [])).toEqual({ plan: {}, passes: [], zones: plan.zones });
    expect(analysisOf(plan as unknown as Plan)).toEqual({ slow_n_share: 0.5 });
  });

  it("of a product is named with the product, which keeps the rest of its label", () => {
    const store = fakeBook();
    const sick = { n_percent: 60, p2o5_percent: 60, k2o_percent: 0 };
    store.put({
      t: "product",
      id: "p",
      groups: groups({ name: { name: "Old", sort: "fertilizer" }, label: { net_kg: 20 }, analysis: sick }),
    });
    expect(sickRecords(store).value).toMatchObject([
      { id: "p", name: "Old", fields: ["Nitrogen, N", "Phosphate, P2O5", "Potash, K2O"] },
    ]);
    const found = product({ analysis: sick });
    expect([found.net_kg, found.n_percent, found.p2o5_percent]).toEqual([20, undefined, undefined]);
  });

  it("of a later build stays", () => {
    expect(ownFields("zone", "site", { sun: "sun", tiles: 4 }).fields).toEqual({ sun: "sun", tiles: 4 });
  });
});

const SPREAD = {
  kind: "spread",
  occurred_at: "2026-05-10T10:00:00Z",
  zone_ids: ["z"],
  product_id: "p",
  aim: {},
  area_m2: 90,
  target_kg_m2: 0.02,
  used_kg: 2,
  zones: [{ zone_id: "z", used_kg: 2 }],
};
const PASS = { spread_id: "s", spreader_id: "r", number: 1, dial: 4, measured: "scale" };

describe("an entry", () => {
  const entry = (body: object) => entryOf(fakeRow({ t: "entry", id: "e", body }));
  const at = "2026-05-10T10:00:00Z";

  it("carries no field of another kind: a mow with zones has none", () => {
    const mow = entry({
      kind: "mow",
      occurred_at: at,
      zone_ids: ["z"],
      zones: 5,
      product_id: "p",
      used_kg: 3,
    });
    expect(mow.body).toEqual({ kind: "mow", occurred_at: at, zone_ids: ["z"] });
    expect(totalsOf([mow], "2026-05-14").entries).toEqual([
      { id: "e", kind: "mow", occurred_at: at, zone_ids: ["z"], void: false },
    ]);
  });

  it.each([
    [{ kind: "spread", zones: 5 }, ["zones"]],
    [{ kind: "spread", zones: [{ area_m2: 3 }] }, ["zones"]],
    [{ kind: "spread", used_kg: -3 }, ["used_kg"]],
    [{ kind: "mow", zone_ids: "all" }, ["zone_ids"]],
    [{ kind: "pass", parts: "two" }, ["parts"]],
    [{ kind: "stock_count", left_kg: "9" }, ["left_kg"]],
  ])("that cannot be used (%j) is left out of the sums and known as such", (body, sick) => {
    const found = entry(wholeBody({ occurred_at: at, zone_ids: ["z"], ...body }));
    expect(found.sick).toEqual(sick);
    expect(totalsOf([found], "2026-05-14").entries).toEqual([]);
  });
});

/** What a record of each kind cannot be without: a field of every group that has a required one. */
const WHOLE: Record<string, Record<string, Record<string, unknown>>> = {
  zone: { name: { name: "Back" }, ground: { area_m2: 90, method: "typed" } },
  product: { name: { name: "Slow feed", sort: "fertilizer" }, label: { net_kg: 9 } },
  spreader: {
    name: { name: "Rotary", sort: "rotary" },
    dial: { lowest: 1, highest: 9, step: 1 },
    walking: { swath_m: 2, speed_m_s: 1.3 },
  },
  claim: { claim: { job: "mow", day: "2026-05-10" } },
  settlement: { settled: { clash: "a" } },
  photo: {
    photo: { of: "zone", of_id: "z", sha256: "a".repeat(64), width_px: 9, height_px: 9, size_bytes: 99 },
  },
};
const lacking = Object.entries(WHOLE).flatMap(([t, all]) =>
  Object.entries(all).flatMap(([group, fields]) =>
    Object.keys(fields).map((name) => [t, group, name] as const),
  ),
);

describe("a record that lacks what it must have", () => {
  const named = (t: string, all: Record<string, object>) => {
    const store = fakeBook();
    store.put({ t, id: "r", groups: groups(all) });
    return sickRecords(store).value.map(({ id, fields }) => [id, fields]);
  };

  it.each(Object.entries(WHOLE))("is none where it has all of it: %s", (t, all) => {
    expect(named(t, all)).toEqual([]);
  });

  it.each(lacking)("%s.%s.%s is named", (t, group, name) => {
    for (const nothing of [undefined, null]) {
      const rest = { ...WHOLE[t]?.[group], [name]: nothing };
      const label = fieldsOf(t, group)[name]?.label;
      expect(named(t, { ...WHOLE[t], [group]: rest })).toEqual([["r", [label]]]);
    }
  });

  it("is whole where a group it may do without was cleared", () => {
    expect(named("spreader", { ...WHOLE["spreader"], walking: {} })).toEqual([]);
    const { walking: _, ...rest } = WHOLE["spreader"] as Record<string, object>;
    expect(named("spreader", rest)).toEqual([]);
  });

  it("is named where the whole group is not there", () => {
    const { ground, ...rest } = WHOLE["zone"] as Record<string, object>;
    expect(named("zone", rest)).toEqual([["r", ["Area", "How it was measured"]]]);
    expect(named("zone", { ...rest, ground: ground as object })).toEqual([]);
  });

  it.each([
    ["spread", "used_kg"],
    ["spread", "zones"],
    ["spread", "occurred_at"],
    ["stock_count", "left_kg"],
    ["pass", "dial"],
  ])("is left out of the sums as an entry is whose field is wrong: %s without %s", (kind, name) => {
    const fields = { ...SPREAD, left_kg: 3, ...PASS, kind };
    const whole = ownFields("entry", kind, fields).fields;
    const read = (body: object) => entryOf(fakeRow({ t: "entry", id: "e", body }));
    expect(read(whole).sick).toEqual([]);
    const found = read({ ...whole, [name]: undefined });
    expect(found.sick).toEqual([name]);
    expect(totalsOf([found], "2026-05-14").entries).toEqual([]);
  });

  it("is put right by a save of its form, which writes that group", () => {
    const row = fakeRow({ t: "zone", id: "z", groups: groups({ ...WHOLE["zone"], ground: { area_m2: 9 } }) });
    expect([needsMending(row, "ground"), needsMending(row, "name")]).toEqual([true, false]);
  });

  it("of a kind of entry that only a later build knows is not judged by this one", () => {
    const body = { kind: "aerate", occurred_at: "2026-05-10T10:00:00Z" };
    expect(entryOf(fakeRow({ t: "entry", id: "e", body })).sick).toEqual([]);
  });
});

describe("what was left after a pass, as it was said", () => {
  it.each([
    { way: "scale", amount: "6.5", unit: "lb" },
    { way: "level", level_share: 0.4, in_bag: { amount: "", unit: "lb" } },
    { way: "handfuls", handfuls: "3", handful: { amount: "2", unit: "oz" } },
    { way: "ran_out", covered: "5 of 11" },
    { way: "nothing" },
    { amount: "6.5", unit: "lb" },
  ])("%j counts", (left_typed) => {
    expect(ownFields("entry", "pass", { left_kg: 3, left_typed }).sick).toEqual([]);
  });

  it.each([7, "6.5 lb", [], { way: "scale", amount: 6.5, unit: "lb" }, { way: 3 }])(
    "%j cannot be used, and is named",
    (left_typed) => {
      expect(ownFields("entry", "pass", { left_kg: 3, left_typed }).sick).toEqual(["left_typed"]);
    },
  );
});

describe("a record that cannot be used", () => {
  it("is named with what is wrong with it, and the others are not", () => {
    const store = fakeBook();
    store.put({
      t: "zone",
      id: "sound",
      groups: groups({ ...WHOLE["zone"], cut: { mow_every_days: 4 } }),
    });
    store.put({
      t: "zone",
      id: "sick",
      groups: groups({ ...WHOLE["zone"], name: { name: "Front" }, cut: { mow_every_days: 900 } }),
    });
    store.put({
      t: "entry",
      id: "spread",
      body: wholeBody({ kind: "spread", occurred_at: "2026-05-10T10:00:00Z", zones: 5 }),
    });
    const found = sickRecords(store).value.map(({ id, name, fields }) => [id, name, fields.length]);
    expect(found).toEqual([
      ["sick", "Front", 1],
      ["spread", "spread", 1],
    ]);
    const engine = fakeEngine({
      "record.totals": {},
      "record.due": { zones: {} },
    });
    const today = createToday({
      store,
      engine,
      day: () => "2026-05-14",
      now: () => "2026-05-14T18:00:00Z",
      memberId: () => undefined,
    });
    const stop = today.due.subscribe(() => undefined);
    return settled().then(() => {
      const asked = engine.askedOf("record.due")[0];
      expect(asked?.zones).toEqual([
        { id: "sound", last_mow: null, mow_every_days: 4 },
        { id: "sick", last_mow: null },
      ]);
      stop();
    });
  });
});

describe("an outline", () => {
  const ring = (corners: number) => Array.from({ length: corners }, (_, k) => [k, k % 7]);
  it("of more corners in all than the server takes is not drawn or planned over", () => {
    const ground = (holes: number) => ({
      area_m2: 9,
      outline: { points_m: ring(200), holes_m: [ring(holes)] },
    });
    expect(ownFields("zone", "ground", ground(MOST_CORNERS - 200)).sick).toEqual([]);
    expect(ownFields("zone", "ground", ground(MOST_CORNERS - 199))).toEqual({
      fields: { area_m2: 9 },
      sick: ["outline"],
    });
  });
});
