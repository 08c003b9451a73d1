import { describe, expect, it } from "vitest";
import { settled } from "../../../records/fake-book";
import { chosen, count, inTheYard, kg, left, passBodies, shelf, striped, weighed } from "./fake-spreading";
import { SPREAD_KEY } from "./spreading";

describe("the way out of a job before anything has gone down", () => {
  it("leaves no pass in the log and no job on the phone", async () => {
    const store = shelf();
    const spreading = await inTheYard(store);
    expect(spreading.untouched.value).toBe(true);
    await spreading.putAway();
    expect(store.saved).toEqual([]);
    expect(store.kept.has(SPREAD_KEY)).toBe(false);
  });

  it("can be undone: the job is back as it was", async () => {
    const store = shelf();
    const spreading = await striped(store);
    const before = structuredClone(spreading.draft.value);
    const last = await spreading.putAway();
    if (last) await spreading.takeUpAgain(last);
    await spreading.open();
    expect(spreading.draft.value).toEqual(before);
  });

  it("does not put a job that was ended over one begun since", async () => {
    const store = shelf();
    const spreading = await inTheYard(store);
    const last = await spreading.putAway();
    spreading.begin();
    await spreading.change({ zone_ids: ["long"] });
    if (last) await spreading.takeUpAgain(last);
    expect((store.kept.get(SPREAD_KEY) as any).zone_ids).toEqual(["long"]);
  });

  it("is not there once a strip is counted, and is again once it is taken back", async () => {
    const spreading = await striped();
    await count(spreading, 1);
    expect([spreading.untouched.value, spreading.canGoBack.value]).toEqual([false, false]);
    await spreading.uncount();
    expect([spreading.untouched.value, spreading.canGoBack.value]).toEqual([true, true]);
  });
});

describe("a step back out of the yard", () => {
  it("leads to the load, with the plan open again and all that was typed kept", async () => {
    const spreading = await chosen();
    await spreading.change({ loaded: kg("8") });
    await spreading.setOff();
    expect(spreading.back()).toBe("load");
    await settled();
    expect(spreading.step.value).toBe("load");
    expect(spreading.draft.value).toMatchObject({ plan: null, pass: null, loaded: kg("8") });
    expect(spreading.beneath.value).toEqual(["choose", "aim", "cautions"]);
    await spreading.setOff();
    expect(spreading.step.value).toBe("yard");
  });

  it("leads from a later pass to what was said after the one before, and out again", async () => {
    const store = shelf();
    const spreading = await inTheYard(store);
    await weighed(spreading, "6");
    await spreading.walkOn();
    expect(spreading.back()).toBe("next");
    await settled();
    expect(spreading.step.value).toBe("next");
    expect(passBodies(store)).toHaveLength(1);
    await spreading.walkOn();
    expect(spreading.step.value).toBe("yard");
    expect(spreading.draft.value?.pass).toMatchObject({ number: 2, start_kg: 6 });
  });

  it("keeps what was said of the bag beside", async () => {
    const spreading = await inTheYard();
    const { pour } = spreading.draft.value ?? {};
    if (!pour) throw new Error("no walk on foot");
    await spreading.change({ pour: { ...pour, in_bag: kg("4") } });
    await spreading.pour();
    spreading.back();
    await settled();
    await spreading.setOff();
    expect(spreading.draft.value?.pass?.in_bag_kg).toBe(4);
  });

  it("is not there where more was poured in than was loaded, or a strip is counted", async () => {
    const spreading = await striped();
    await count(spreading, 1);
    expect(spreading.back()).toBeUndefined();
    expect(spreading.step.value).toBe("yard");
  });

  it("leads from what is left to the yard, whatever is counted", async () => {
    const spreading = await striped();
    await count(spreading, 3);
    await spreading.endPass();
    await spreading.change(left(spreading.draft.value, { weight: kg("4") }));
    expect(spreading.back()).toBe("yard");
  });
});
