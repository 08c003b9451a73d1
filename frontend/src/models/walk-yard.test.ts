import { describe, expect, it } from "vitest";
import { groups, refuses, says, settled } from "./fake-book";
import {
  CHECKED,
  chosen,
  engine,
  inTheYard,
  kg,
  left,
  passBodies,
  shelf,
  used,
  walkOver,
  weighed,
} from "./fake-walk";
import { WALK_KEY } from "./walk";
import type { WalkDraft } from "./walk-types";

type Walk = Awaited<ReturnType<typeof inTheYard>>;

/** In the yard with ten strips counted by hand across the first zone; the second is one row. */
async function striped(store = shelf(), answers = engine()) {
  const walk = await inTheYard(store, answers);
  await walk.setStrips("verge", 10);
  return walk;
}

const form = (walk: Walk, part: Partial<WalkDraft["check"]>) => {
  const { check } = walk.draft.value ?? {};
  if (!check) throw new Error("no walk on foot");
  return { check: { ...check, ...part } };
};

async function checkedAt(walk: Walk, amount: string, dial: number) {
  await walk.openCheck();
  await walk.change(form(walk, { way: "scale", weight: kg(amount) }));
  return walk.decide(dial);
}

async function count(walk: Walk, times: number) {
  for (let k = 0; k < times; k += 1) await walk.count();
}

const kept = (store: ReturnType<typeof shelf>) => store.kept.get(WALK_KEY) as WalkDraft;

describe("counting strips", () => {
  it("lays the rows of a pass out in walking order before the first step", async () => {
    const walk = await chosen();
    await walk.change({ zone_ids: ["long", "verge"] });
    await walk.setOff();
    expect(walk.draft.value?.pass?.rows.map(({ zone_id }) => zone_id)).toEqual(["long", "verge"]);
    expect(walk.standing.value).toMatchObject({ done: 0, of: 2, zone: { id: "long" }, expected_kg: 10 });
  });

  it("asks for the rows with what the pass should put down, its pattern and its swath", async () => {
    const answers = engine();
    await inTheYard(shelf(), answers);
    const ask = answers.asked.find(({ name }) => name === "swath.tour");
    expect(ask?.args).toMatchObject({ swath_m: 1.5, speed_m_s: 1.3, pattern: "plain" });
    expect(ask?.args).toMatchObject({ load_kg: 10, rate_kg_m2: 0.025 });
  });

  it("is on the phone before it is on the screen", async () => {
    const store = shelf();
    const walk = await striped(store);
    const seen: (number | undefined)[] = [];
    const put = store.drafts.put;
    store.drafts.put = async (key, value) => {
      seen.push(walk.draft.value?.pass?.done);
      await put(key, value);
    };
    await walk.count();
    expect(seen).toEqual([0]);
    expect(kept(store).pass?.done).toBe(1);
    expect(walk.standing.value).toMatchObject({ done: 1, of: 11, in_zone: 2, of_zone: 10 });
  });

  it("does not move where the phone cannot keep it, and says so", async () => {
    const store = shelf();
    const walk = await striped(store);
    store.drafts.put = () => Promise.reject(new Error("full"));
    expect(await walk.count()).toBe(false);
    expect(walk.standing.value?.done).toBe(0);
    expect(walk.refused.value).toContain("storage");
  });

  it("counts two quick taps once", async () => {
    const walk = await striped();
    await Promise.all([walk.count(), walk.count()]);
    expect(walk.standing.value?.done).toBe(1);
  });

  it("rests after a count, so that a shaking glove counts once", async () => {
    const store = shelf();
    let over = () => {};
    const parts = { store, engine: engine(), now: () => "2026-05-14T18:05:00+02:00", memberId: () => "me" };
    const { createWalk } = await import("./walk");
    const walk = createWalk({
      ...parts,
      system: () => "metric",
      rest: (done) => {
        over = done;
      },
    });
    await walk.open();
    walk.begin();
    await walk.change({ zone_ids: ["verge", "long"], product_id: "slow", spreader_id: "rotary" });
    await walk.setOff();
    await walk.count();
    expect(await walk.count()).toBe(false);
    expect(walk.standing.value?.done).toBe(1);
    over();
    expect(await walk.count()).toBe(true);
    expect(walk.standing.value?.done).toBe(2);
  });

  it("says what should be there after each strip, and names a zone as it changes", async () => {
    const walk = await striped();
    await count(walk, 4);
    expect(walk.standing.value?.expected_kg).toBeCloseTo(10 - 0.025 * 48, 9);
    expect(walk.standing.value?.new_zone).toBe(false);
    await count(walk, 6);
    expect(walk.standing.value).toMatchObject({ done: 10, new_zone: true, zone: { id: "long" } });
  });

  it("stops at the last one and takes the last count back", async () => {
    const walk = await striped();
    await count(walk, 12);
    expect(walk.standing.value).toMatchObject({ done: 11, of: 11, row: undefined });
    await walk.uncount();
    expect(walk.standing.value?.done).toBe(10);
  });

  it("goes on without strips where none can be laid out", async () => {
    const walk = await inTheYard(shelf(), engine({ "swath.tour": () => refuses("no") }));
    expect(walk.step.value).toBe("yard");
    expect(walk.draft.value?.pass?.rows).toEqual([]);
    await weighed(walk, "6");
    expect(walk.passes.value).toHaveLength(1);
  });

  it("leaves the outlines out where one of them cannot be laid out", async () => {
    const asked: any[] = [];
    const store = shelf();
    const outline = {
      points_m: [
        [0, 0],
        [1, 1],
        [1, 0],
        [0, 1],
      ],
      holes_m: [],
      circles_m: [],
    };
    const ground = { area_m2: 120, outline };
    store.put({ t: "zone", id: "verge", groups: groups({ name: { name: "Verge" }, ground }) });
    const base = engine();
    const walk = await inTheYard(
      store,
      engine({
        "swath.tour": (args) => {
          asked.push(args);
          return asked.length === 1 ? refuses("crossing") : (base.call("swath.tour", args) as any);
        },
      }),
    );
    expect(asked[0].zones[0].outline_m).toHaveLength(4);
    expect(asked[1].zones[0].outline_m).toBeUndefined();
    expect(walk.draft.value?.pass?.rows).toHaveLength(2);
  });
});

describe("a look on the way", () => {
  it("changes nothing by itself, whatever is typed", async () => {
    const store = shelf();
    const walk = await striped(store);
    await count(walk, 3);
    const before = structuredClone(walk.draft.value?.pass);
    await walk.openCheck();
    await walk.change(form(walk, { way: "scale", weight: kg("8.5") }));
    const shown = walk.checked.subscribe(() => undefined);
    await settled();
    expect(walk.checked.value?.value).toMatchObject({ dial: 5.5, advice: "lower" });
    expect(walk.draft.value?.pass).toEqual(before);
    await walk.back();
    expect(walk.step.value).toBe("yard");
    expect(walk.draft.value?.pass).toEqual(before);
    shown();
  });

  it("asks the engine with the ground done since the setting, the ground to go and what is there", async () => {
    const answers = engine();
    const walk = await striped(shelf(), answers);
    await count(walk, 5);
    await checkedAt(walk, "8", 5.5);
    const { args } = answers.asked.findLast(({ name }) => name === "spreading.check") ?? {};
    expect(args).toMatchObject({ dial_now: 6, now_kg: 8, left_kg: 10, passes_to_go: 2, area_m2: 200 });
    expect(args).toMatchObject({ area_done_m2: 60, area_to_go_m2: 140, swath_m: 1.5, history: [] });
  });

  it("begins a new stretch with a new setting, and the first is history for the second look", async () => {
    const answers = engine();
    const walk = await striped(shelf(), answers);
    await count(walk, 5);
    await checkedAt(walk, "8", 5.5);
    expect(walk.draft.value?.pass).toMatchObject({
      dial: 5.5,
      expect: CHECKED.likely_end_kg,
      part: { there_kg: 8, rows: 5, area_m2: 60 },
      parts: [{ dial: 6, area_m2: 60, used_kg: 2, measured: "scale", left_kg: 8 }],
      checks: [{ row: 5, area_done_m2: 60, now_kg: 8, dial_before: 6, dial_after: 5.5 }],
    });
    expect(walk.step.value).toBe("yard");
    await count(walk, 2);
    await checkedAt(walk, "7.5", 5.5);
    const { args } = answers.asked.findLast(({ name }) => name === "spreading.check") ?? {};
    expect(args).toMatchObject({ left_kg: 8, now_kg: 7.5, dial_now: 5.5, area_to_go_m2: 116 });
    expect(args.area_done_m2).toBeCloseTo(24, 9);
    expect(args.history).toMatchObject([{ product: "slow", dial: 6, area_m2: 60, used_kg: 2, left_kg: 8 }]);
  });

  it("keeps the setting where the person keeps it, and counts on from what was seen", async () => {
    const walk = await striped();
    await count(walk, 5);
    await checkedAt(walk, "8", 6);
    expect(walk.draft.value?.pass).toMatchObject({ dial: 6, parts: [], part: { rows: 0 } });
    expect(walk.draft.value?.pass?.checks).toHaveLength(1);
    expect(walk.standing.value?.expected_kg).toBe(8);
    await walk.count();
    expect(walk.standing.value?.expected_kg).toBeCloseTo(8 - 0.03 * 12, 9);
  });

  it("is not noted twice by two quick taps", async () => {
    const walk = await striped();
    await count(walk, 5);
    await walk.openCheck();
    await walk.change(form(walk, { way: "scale", weight: kg("8") }));
    await Promise.all([walk.decide(5.5), walk.decide(5.5)]);
    await walk.decide(5.5);
    expect(walk.draft.value?.pass?.parts).toHaveLength(1);
    expect(walk.draft.value?.pass?.checks).toHaveLength(1);
  });

  it("refuses more than there was and leaves the pass as it is", async () => {
    const walk = await striped();
    await count(walk, 2);
    expect(await checkedAt(walk, "12", 5.5)).toBe(false);
    expect(walk.step.value).toBe("check");
    expect(walk.draft.value?.pass?.checks).toEqual([]);
    expect(walk.draft.value?.check.weight.amount).toBe("12");
  });

  it("asks how much of a zone without strips is walked, and takes it from the engine", async () => {
    const answers = engine();
    const walk = await inTheYard(shelf(), answers);
    await walk.openCheck();
    await walk.change(form(walk, { way: "scale", weight: kg("9"), covered: "1 of 4" }));
    expect(await walk.decide(5.5)).toBe(true);
    const { args } = answers.asked.findLast(({ name }) => name === "spreading.check") ?? {};
    expect(args).toMatchObject({ area_done_m2: 30, area_to_go_m2: 170 });
    expect(walk.draft.value?.pass).toMatchObject({ done: 0, part: { area_m2: 30, there_kg: 9 } });
  });

  it("does not take a level read at one strip for the next", async () => {
    const walk = await striped();
    await count(walk, 2);
    await walk.openCheck();
    await walk.change(form(walk, { way: "level", level_share: 0.5 }));
    await walk.back();
    await walk.count();
    expect(walk.draft.value?.check).toMatchObject({ way: "level", level_share: null });
  });

  it("lets the dial be turned by hand only before anything is walked at it", async () => {
    const walk = await striped();
    expect(walk.canTurn.value).toBe(true);
    await walk.count();
    expect(walk.canTurn.value).toBe(false);
    await walk.setDial(9);
    expect(walk.draft.value?.pass?.dial).toBe(6);
  });

  it("asks the curve what a setting of one's own puts down", async () => {
    const curve = () =>
      says({ points: [{ dial: 8, rate_kg_m2: { low: 0.04, mid: 0.05, high: 0.06 } }], past: [] });
    const walk = await striped(shelf(), engine({ "spreading.curve": curve }));
    await walk.setDial(8);
    expect(walk.draft.value?.pass).toMatchObject({ dial: 8, rate_kg_m2: 0.05 });
    await walk.count();
    expect(walk.standing.value?.expected_kg).toBeCloseTo(10 - 0.05 * 12, 9);
  });
});

describe("the book after a pass of several settings", () => {
  it("holds every stretch; their ground and product add up to the pass", async () => {
    const store = shelf();
    const walk = await striped(store);
    await count(walk, 5);
    await checkedAt(walk, "8", 5.5);
    await count(walk, 6);
    await weighed(walk, "5.5");
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
    const walk = await striped(store);
    await count(walk, 5);
    await checkedAt(walk, "8", 6);
    await count(walk, 6);
    await weighed(walk, "5");
    expect(passBodies(store)[0]).not.toHaveProperty("parts");
    expect(passBodies(store)[0].checks).toHaveLength(1);
  });

  it("gives the next pass both stretches as history", async () => {
    const answers = engine();
    const walk = await striped(shelf(), answers);
    await count(walk, 5);
    await checkedAt(walk, "8", 5.5);
    await count(walk, 6);
    await weighed(walk, "5.5");
    await walk.walkOn();
    const { args } = answers.asked.findLast(({ name }) => name === "spreading.next") ?? {};
    expect(args.history.map(({ dial, area_m2 }: any) => [dial, area_m2])).toEqual([
      [6, 60],
      [5.5, 140],
    ]);
    expect(walk.draft.value?.pass).toMatchObject({ number: 2, pattern: "offset", done: 0, parts: [] });
    expect(walk.draft.value?.pass?.rows).toHaveLength(11);
  });

  it("asks whether all the ground was covered where only some strips are counted", async () => {
    const store = shelf();
    const walk = await striped(store);
    await count(walk, 5);
    await walk.go("left");
    await walk.change(left(walk.draft.value, { way: "scale", weight: kg("8") }));
    expect(await walk.record()).toBe(false);
    await walk.change(left(walk.draft.value, { whole: false }));
    expect(await walk.record()).toBe(true);
    expect(passBodies(store)[0]).toMatchObject({ area_m2: 60, used_kg: 2 });
  });

  it("takes the counted strips as the ground covered where it ran out, and lets them be put right", async () => {
    const store = shelf();
    const walk = await striped(store);
    await count(walk, 5);
    await walk.ranOut();
    expect(walk.draft.value?.left).toMatchObject({ way: "ran_out", covered: "5 of 11" });
    await walk.change(left(walk.draft.value, { covered: "6 of 11" }));
    expect(await walk.record()).toBe(true);
    expect(passBodies(store)[0]).toMatchObject({ ran_out: true, area_m2: 72, used_kg: 10, left_kg: 0 });
  });

  it("carries that the product was damp, so that it is not learnt from", async () => {
    const store = shelf();
    const walk = await striped(store);
    await walk.setDamp(true);
    await weighed(walk, "6");
    expect(passBodies(store)[0].damp).toBe(true);
    expect(walk.history.value[0]?.damp).toBe(true);
  });

  it("opens a pass taken back with its strips, stretches and looks as they were", async () => {
    const walk = await striped();
    await count(walk, 5);
    await checkedAt(walk, "8", 5.5);
    await count(walk, 6);
    const before = structuredClone(walk.draft.value?.pass);
    await weighed(walk, "5.5");
    await walk.takeBack();
    const { id: _, ...again } = walk.draft.value?.pass ?? {};
    const { id: __, ...was } = before ?? {};
    expect(again).toEqual(was);
  });
});

describe("pouring in on the way", () => {
  const pouring = (walk: Walk, part: Partial<WalkDraft["pour"]>) => {
    const { pour } = walk.draft.value ?? {};
    if (!pour) throw new Error("no walk on foot");
    return walk.change({ pour: { ...pour, ...part } });
  };

  async function loaded(amount: string, store = shelf()) {
    const walk = await chosen(store);
    await walk.change({ loaded: kg(amount) });
    await walk.setOff();
    await walk.setStrips("verge", 10);
    return walk;
  }

  it("from the bag beside changes what is in the hopper, not what there is", async () => {
    const walk = await striped();
    await pouring(walk, { from: "bag", in_bag: kg("3") });
    expect(await walk.pour()).toBe(true);
    expect(walk.draft.value?.pass).toMatchObject({ in_bag_kg: 3, added_kg: 0, part: { there_kg: 10 } });
    expect(walk.draft.value?.pour.in_bag.amount).toBe("");
  });

  it("counts what was not loaded as there, in the pass and in the book", async () => {
    const store = shelf();
    const walk = await loaded("6", store);
    await count(walk, 2);
    await pouring(walk, { from: "more", added: kg("3") });
    expect(await walk.pour()).toBe(true);
    expect(walk.draft.value?.pass).toMatchObject({ added_kg: 3, part: { there_kg: 9 }, base: { kg: 9 } });
    expect(walk.standing.value?.expected_kg).toBeCloseTo(9 - 0.025 * 24, 9);
    await count(walk, 9);
    await weighed(walk, "4");
    expect(passBodies(store)[0]).toMatchObject({ start_kg: 6, added_kg: 3, used_kg: 5, left_kg: 4 });
  });

  it("is refused over the aim, with what is allowed", async () => {
    const walk = await loaded("6");
    await pouring(walk, { from: "more", added: kg("5") });
    expect(await walk.pour()).toBe(false);
    expect(walk.pourTrouble.value).toMatchObject({
      field: "added",
      message: expect.stringContaining("At most 4"),
    });
    expect(walk.draft.value?.pass?.added_kg).toBe(0);
    expect(walk.draft.value?.pour.added.amount).toBe("5");
  });

  it("is refused once the whole aim is loaded", async () => {
    const walk = await striped();
    await pouring(walk, { from: "more", added: kg("1") });
    expect(await walk.pour()).toBe(false);
    expect(walk.pourTrouble.value?.message).toContain("loaded already");
  });

  it("is not poured twice by two quick taps", async () => {
    const walk = await loaded("6");
    await pouring(walk, { from: "more", added: kg("2") });
    await Promise.all([walk.pour(), walk.pour()]);
    await walk.pour();
    expect(walk.draft.value?.pass?.added_kg).toBe(2);
  });

  it("counts earlier passes' product towards the aim", async () => {
    const walk = await loaded("6");
    await pouring(walk, { from: "more", added: kg("3") });
    await walk.pour();
    await weighed(walk, "5");
    await walk.walkOn();
    await pouring(walk, { from: "more", added: kg("2") });
    expect(await walk.pour()).toBe(false);
    expect(walk.pourTrouble.value?.message).toContain("At most 1");
  });
});

describe("another evening", () => {
  it("keeps the strips, says since when, and goes on where it stopped", async () => {
    const store = shelf();
    const walk = await striped(store);
    await count(walk, 4);
    await walk.stop();
    const after = walkOver(store);
    await after.open();
    expect(after.draft.value?.stopped_at).toBe("2026-05-14T18:05:00+02:00");
    expect(after.standing.value?.done).toBe(4);
    await after.resume();
    expect(after.draft.value?.stopped_at).toBeNull();
    await after.count();
    expect(after.standing.value?.done).toBe(5);
  });

  it("is over with a look, too", async () => {
    const walk = await striped();
    await count(walk, 4);
    await walk.stop();
    await checkedAt(walk, "8", 6);
    expect(walk.draft.value?.stopped_at).toBeNull();
  });
});

describe("a phone that dies between any two steps", () => {
  it("stands exactly where it was, whatever was done last", async () => {
    const store = shelf();
    const walk = await chosen(store);
    await walk.change({ loaded: kg("8") });
    const steps: (() => Promise<unknown> | undefined)[] = [
      () => walk.setOff(),
      () => walk.setStrips("verge", 10),
      () => walk.count(),
      () => walk.count(),
      () => walk.uncount(),
      () => walk.count(),
      () => walk.setDamp(true),
      () => walk.openCheck(),
      () => walk.change(form(walk, { way: "scale", weight: kg("7") })),
      () => walk.decide(5.5),
      () => walk.change({ pour: { from: "more", in_bag: kg(""), added: kg("1") } }),
      () => walk.pour(),
      () => walk.count(),
      () => walk.stop(),
      () => walk.resume(),
      () => walk.ranOut(),
      () => walk.change(left(walk.draft.value, { way: "scale", weight: kg("5"), whole: true })),
      () => walk.record(),
      () => walk.walkOn(),
      () => walk.count(),
      () => walk.change(left(walk.draft.value, { whole: true })),
      () => weighed(walk, "1"),
    ];
    for (const step of steps) {
      await step();
      const again = walkOver(store);
      await again.open();
      expect(again.draft.value, String(step)).toEqual(walk.draft.value);
      expect(again.step.value, String(step)).toBe(walk.step.value);
      expect(again.standing.value, String(step)).toEqual(walk.standing.value);
    }
    expect(passBodies(store)).toHaveLength(2);
    expect(passBodies(store)[0]).toMatchObject({ damp: true, added_kg: 1, start_kg: 8 });
  });

  it("has the pass in the book once, where it died before the draft was kept", async () => {
    const store = shelf();
    const walk = await striped(store);
    await count(walk, 11);
    await walk.go("left");
    await walk.change(left(walk.draft.value, { weight: kg("6") }));
    const stale = structuredClone(store.kept.get(WALK_KEY));
    await walk.record();
    await store.drafts.put(WALK_KEY, stale);
    const after = walkOver(store);
    await after.open();
    expect(after.step.value).toBe("next");
    expect(passBodies(store)).toHaveLength(1);
  });
});

describe("a draft of an earlier build", () => {
  async function old(step: string, over: object = {}) {
    const store = shelf();
    const walk = await inTheYard(store);
    const {
      crossing: _,
      check: __,
      pour: ___,
      strips: ____,
      stopped_at: _____,
      ...kept
    } = walk.draft.value as WalkDraft;
    const {
      id,
      number,
      dial,
      start_kg,
      expect: likely,
      chance_of_running_out,
      why,
      suggested,
    } = kept.pass as any;
    const pass = { id, number, dial, start_kg, expect: likely, chance_of_running_out, why, suggested };
    const { whole: ______, ...form } = kept.left;
    const shape1 = { ...kept, shape: 1, step, pass, left: { ...form, weight: kg("6.2") }, ...over };
    await store.drafts.put(WALK_KEY, shape1);
    const after = walkOver(store);
    await after.open();
    await settled();
    return { store, walk: after, shape1 };
  }

  it("keeps all that was entered and stands at the same step", async () => {
    const { walk, shape1 } = await old("left");
    expect(walk.step.value).toBe("left");
    expect(walk.draft.value).toMatchObject({ ...shape1, shape: 2, pass: shape1.pass });
    expect(walk.draft.value?.left).toMatchObject({ weight: kg("6.2"), whole: null });
  });

  it("has its strips laid out and can be walked to its end", async () => {
    const { walk, store } = await old("yard");
    expect(walk.draft.value?.pass?.rows).toHaveLength(2);
    expect(walk.draft.value?.pass).toMatchObject({ done: 0, pattern: "plain", part: { there_kg: 10 } });
    await walk.count();
    await walk.count();
    await weighed(walk, "6.2");
    expect(passBodies(store)[0]).toMatchObject({ left_kg: 6.2, start_kg: 10 });
  });

  it("before the yard is taken over as it is", async () => {
    const { walk } = await old("aim", { pass: null, plan: null });
    expect(walk.step.value).toBe("aim");
    expect(walk.draft.value).toMatchObject({ crossing: "offset", pass: null, stopped_at: null });
  });
});

describe("the balance", () => {
  it("of the tests' engine refuses more left than there was", () => {
    expect(used({ start_kg: 5, left_kg: 6, measured: "scale" }).error?.name).toBe("left_kg");
  });
});
