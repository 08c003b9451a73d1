import { describe, expect, it } from "vitest";
import { settled } from "../../../records/fake-book";
import { chosen, count, inTheYard, kg, left, passBodies, shelf, striped, weighed } from "./fake-spreading";
import { WALK_KEY } from "./spreading";

describe("the way out of a job before anything has gone down", () => {
  it("leaves no pass in the log and no job on the phone", async () => {
    const store = shelf();
    const walk = await inTheYard(store);
    expect(walk.untouched.value).toBe(true);
    await walk.putAway();
    expect(store.saved).toEqual([]);
    expect(store.kept.has(WALK_KEY)).toBe(false);
  });

  it("can be undone: the job is back as it was", async () => {
    const store = shelf();
    const walk = await striped(store);
    const before = structuredClone(walk.draft.value);
    const last = await walk.putAway();
    if (last) await walk.takeUpAgain(last);
    await walk.open();
    expect(walk.draft.value).toEqual(before);
  });

  it("does not put a job that was ended over one begun since", async () => {
    const store = shelf();
    const walk = await inTheYard(store);
    const last = await walk.putAway();
    walk.begin();
    await walk.change({ zone_ids: ["long"] });
    if (last) await walk.takeUpAgain(last);
    expect((store.kept.get(WALK_KEY) as any).zone_ids).toEqual(["long"]);
  });

  it("is not there once a strip is counted, and is again once it is taken back", async () => {
    const walk = await striped();
    await count(walk, 1);
    expect([walk.untouched.value, walk.canGoBack.value]).toEqual([false, false]);
    await walk.uncount();
    expect([walk.untouched.value, walk.canGoBack.value]).toEqual([true, true]);
  });
});

describe("a step back out of the yard", () => {
  it("leads to the load, with the plan open again and all that was typed kept", async () => {
    const walk = await chosen();
    await walk.change({ loaded: kg("8") });
    await walk.setOff();
    expect(walk.back()).toBe("load");
    await settled();
    expect(walk.step.value).toBe("load");
    expect(walk.draft.value).toMatchObject({ plan: null, pass: null, loaded: kg("8") });
    expect(walk.beneath.value).toEqual(["choose", "aim", "cautions"]);
    await walk.setOff();
    expect(walk.step.value).toBe("yard");
  });

  it("leads from a later pass to what was said after the one before, and out again", async () => {
    const store = shelf();
    const walk = await inTheYard(store);
    await weighed(walk, "6");
    await walk.walkOn();
    expect(walk.back()).toBe("next");
    await settled();
    expect(walk.step.value).toBe("next");
    expect(passBodies(store)).toHaveLength(1);
    await walk.walkOn();
    expect(walk.step.value).toBe("yard");
    expect(walk.draft.value?.pass).toMatchObject({ number: 2, start_kg: 6 });
  });

  it("keeps what was said of the bag beside", async () => {
    const walk = await inTheYard();
    const { pour } = walk.draft.value ?? {};
    if (!pour) throw new Error("no walk on foot");
    await walk.change({ pour: { ...pour, in_bag: kg("4") } });
    await walk.pour();
    walk.back();
    await settled();
    await walk.setOff();
    expect(walk.draft.value?.pass?.in_bag_kg).toBe(4);
  });

  it("is not there where more was poured in than was loaded, or a strip is counted", async () => {
    const walk = await striped();
    await count(walk, 1);
    expect(walk.back()).toBeUndefined();
    expect(walk.step.value).toBe("yard");
  });

  it("leads from what is left to the yard, whatever is counted", async () => {
    const walk = await striped();
    await count(walk, 3);
    await walk.endPass();
    await walk.change(left(walk.draft.value, { weight: kg("4") }));
    expect(walk.back()).toBe("yard");
  });
});
