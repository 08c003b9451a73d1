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
import { WALK_KEY } from "./spreading";
import type { WalkDraft } from "./types";

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
