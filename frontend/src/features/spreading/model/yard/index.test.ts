import { describe, expect, it } from "vitest";
import type { Args } from "../../../../platform/engine";
import { groups, refuses } from "../../../../records/fake-book";
import {
  checkedAt,
  chosen,
  count,
  engine,
  inTheYard,
  shelf,
  striped,
  tour,
  used,
  walkOver,
  weighed,
} from "../fake-spreading";
import { SPREAD_KEY } from "../spreading";
import type { SpreadDraft } from "../types";

const kept = (store: ReturnType<typeof shelf>) => store.kept.get(SPREAD_KEY) as SpreadDraft;

describe("counting strips", () => {
  it("lays the rows of a pass out in walking order before the first step", async () => {
    const spreading = await chosen();
    await spreading.change({ zone_ids: ["long", "verge"] });
    await spreading.setOff();
    expect(spreading.draft.value?.pass?.rows.map(({ zone_id }) => zone_id)).toEqual(["long", "verge"]);
    expect(spreading.standing.value).toMatchObject({ done: 0, of: 2, zone: { id: "long" }, expected_kg: 10 });
  });

  it("asks for the rows with what the pass should put down, its pattern and its swath", async () => {
    const answers = engine();
    await inTheYard(shelf(), answers);
    const [ask] = answers.askedOf("swath.tour");
    expect(ask).toMatchObject({ swath_m: 1.5, speed_m_s: 1.3, pattern: "plain" });
    expect(ask).toMatchObject({ load_kg: 10, rate_kg_m2: 0.025 });
  });

  it("is on the phone before it is on the screen", async () => {
    const store = shelf();
    const spreading = await striped(store);
    const seen: (number | undefined)[] = [];
    const put = store.drafts.put;
    store.drafts.put = async (key, value) => {
      seen.push(spreading.draft.value?.pass?.done);
      await put(key, value);
    };
    await spreading.count();
    expect(seen).toEqual([0]);
    expect(kept(store).pass?.done).toBe(1);
    expect(spreading.standing.value).toMatchObject({ done: 1, of: 11, in_zone: 2, of_zone: 10 });
  });

  it("does not move where the phone cannot keep it, and says so", async () => {
    const store = shelf();
    const spreading = await striped(store);
    store.drafts.put = () => Promise.reject(new Error("full"));
    expect(await spreading.count()).toBe(false);
    expect(spreading.standing.value?.done).toBe(0);
    expect(spreading.refused.value).toMatch(/^Not saved\./);
  });

  it("counts two quick taps once", async () => {
    const spreading = await striped();
    await Promise.all([spreading.count(), spreading.count()]);
    expect(spreading.standing.value?.done).toBe(1);
  });

  it("rests after a count, so that a shaking glove counts once", async () => {
    const store = shelf();
    let over = () => {};
    const parts = { store, engine: engine(), now: () => "2026-05-14T18:05:00+02:00", memberId: () => "me" };
    const { createSpreading } = await import("../spreading");
    const spreading = createSpreading({
      ...parts,
      system: () => "metric",
      rest: (done) => {
        over = done;
      },
    });
    await spreading.open();
    spreading.begin();
    await spreading.change({ zone_ids: ["verge", "long"], product_id: "slow", spreader_id: "rotary" });
    await spreading.setOff();
    await spreading.count();
    expect(await spreading.count()).toBe(false);
    expect(spreading.standing.value?.done).toBe(1);
    over();
    expect(await spreading.count()).toBe(true);
    expect(spreading.standing.value?.done).toBe(2);
  });

  it("says what should be there after each strip, and names a zone as it changes", async () => {
    const spreading = await striped();
    await count(spreading, 4);
    expect(spreading.standing.value?.expected_kg).toBeCloseTo(10 - 0.025 * 48, 9);
    expect(spreading.standing.value?.new_zone).toBe(false);
    await count(spreading, 6);
    expect(spreading.standing.value).toMatchObject({ done: 10, new_zone: true, zone: { id: "long" } });
  });

  it("stops at the last one and takes the last count back", async () => {
    const spreading = await striped();
    await count(spreading, 12);
    expect(spreading.standing.value).toMatchObject({ done: 11, of: 11, row: undefined });
    await spreading.uncount();
    expect(spreading.standing.value?.done).toBe(10);
  });

  it("goes on without strips where none can be laid out", async () => {
    const spreading = await inTheYard(shelf(), engine({ "swath.tour": refuses("no") }));
    expect(spreading.step.value).toBe("yard");
    expect(spreading.draft.value?.pass?.rows).toEqual([]);
    await weighed(spreading, "6");
    expect(spreading.passes.value).toHaveLength(1);
  });

  it("leaves the outlines out where one of them cannot be laid out", async () => {
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
    const outlined = (args: Args<"swath.tour">) => args.zones.some(({ outline_m }) => outline_m);
    const answers = engine({
      "swath.tour": (args) => (outlined(args) ? refuses("crossing") : tour(args)),
    });
    const spreading = await inTheYard(store, answers);
    const [first, second] = answers.askedOf("swath.tour");
    expect(first?.zones[0]?.outline_m).toHaveLength(4);
    expect(second?.zones[0]?.outline_m).toBeUndefined();
    expect(spreading.draft.value?.pass?.rows).toHaveLength(2);
  });
});

describe("another evening", () => {
  it("keeps the strips, says since when, and goes on where it stopped", async () => {
    const store = shelf();
    const spreading = await striped(store);
    await count(spreading, 4);
    await spreading.stop();
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
    const spreading = await striped();
    await count(spreading, 4);
    await spreading.stop();
    await checkedAt(spreading, "8", 6);
    expect(spreading.draft.value?.stopped_at).toBeNull();
  });
});

describe("the balance", () => {
  it("of the tests' engine refuses more left than there was", () => {
    expect(used({ start_kg: 5, left_kg: 6, measured: "scale" })).toMatchObject({
      error: { name: "left_kg" },
    });
  });
});
