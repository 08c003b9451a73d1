import { describe, expect, it } from "vitest";
import { settled } from "../../../records/fake-book";
import {
  chosen,
  count,
  form,
  inTheYard,
  kg,
  left,
  passBodies,
  shelf,
  striped,
  walkOver,
  weighed,
} from "./fake-spreading";
import { SPREAD_KEY } from "./spreading";
import type { SpreadDraft } from "./types";

describe("a phone that dies between any two steps", () => {
  it("stands exactly where it was, whatever was done last", async () => {
    const store = shelf();
    const spreading = await chosen(store);
    await spreading.change({ loaded: kg("8") });
    const steps: (() => Promise<unknown> | undefined)[] = [
      () => spreading.setOff(),
      () => spreading.setStrips("verge", 10),
      () => spreading.count(),
      () => spreading.count(),
      () => spreading.uncount(),
      () => spreading.count(),
      () => spreading.setDamp(true),
      () => spreading.openCheck(),
      () => spreading.change(form(spreading, { way: "scale", weight: kg("7") })),
      () => spreading.decide(5.5),
      () => spreading.change({ pour: { from: "more", in_bag: kg(""), added: kg("1") } }),
      () => spreading.pour(),
      () => spreading.count(),
      () => spreading.stop(),
      () => spreading.resume(),
      () => spreading.ranOut(),
      () => spreading.change(left(spreading.draft.value, { way: "scale", weight: kg("5"), whole: true })),
      () => spreading.record(),
      () => spreading.walkOn(),
      () => spreading.count(),
      () => spreading.change(left(spreading.draft.value, { whole: true })),
      () => weighed(spreading, "1"),
    ];
    for (const step of steps) {
      await step();
      const again = walkOver(store);
      await again.open();
      expect(again.draft.value, String(step)).toEqual(spreading.draft.value);
      expect(again.step.value, String(step)).toBe(spreading.step.value);
      expect(again.standing.value, String(step)).toEqual(spreading.standing.value);
    }
    expect(passBodies(store)).toHaveLength(2);
    expect(passBodies(store)[0]).toMatchObject({ damp: true, added_kg: 1, start_kg: 8 });
  });

  it("has the pass in the book once, where it died before the draft was kept", async () => {
    const store = shelf();
    const spreading = await striped(store);
    await count(spreading, 11);
    await spreading.go("left");
    await spreading.change(left(spreading.draft.value, { weight: kg("6") }));
    const stale = structuredClone(store.kept.get(SPREAD_KEY));
    await spreading.record();
    await store.drafts.put(SPREAD_KEY, stale);
    const after = walkOver(store);
    await after.open();
    expect(after.step.value).toBe("next");
    expect(passBodies(store)).toHaveLength(1);
  });
});

describe("a draft of an earlier build", () => {
  async function old(step: string, over: object = {}) {
    const store = shelf();
    const spreading = await inTheYard(store);
    const {
      crossing: _,
      check: __,
      pour: ___,
      strips: ____,
      stopped_at: _____,
      ...kept
    } = spreading.draft.value as SpreadDraft;
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
    await store.drafts.put(SPREAD_KEY, shape1);
    const after = walkOver(store);
    await after.open();
    await settled();
    return { store, spreading: after, shape1 };
  }

  it("keeps all that was entered and stands at the same step", async () => {
    const { spreading, shape1 } = await old("left");
    expect(spreading.step.value).toBe("left");
    expect(spreading.draft.value).toMatchObject({ ...shape1, shape: 2, pass: shape1.pass });
    expect(spreading.draft.value?.left).toMatchObject({ weight: kg("6.2"), whole: null });
  });

  it("has its strips laid out and can be walked to its end", async () => {
    const { spreading, store } = await old("yard");
    expect(spreading.draft.value?.pass?.rows).toHaveLength(2);
    expect(spreading.draft.value?.pass).toMatchObject({ done: 0, pattern: "plain", part: { there_kg: 10 } });
    await spreading.count();
    await spreading.count();
    await weighed(spreading, "6.2");
    expect(passBodies(store)[0]).toMatchObject({ left_kg: 6.2, start_kg: 10 });
  });

  it("before the yard is taken over as it is", async () => {
    const { spreading } = await old("aim", { pass: null, plan: null });
    expect(spreading.step.value).toBe("aim");
    expect(spreading.draft.value).toMatchObject({ crossing: "offset", pass: null, stopped_at: null });
  });
});
