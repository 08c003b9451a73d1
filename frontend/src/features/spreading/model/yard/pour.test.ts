import { describe, expect, it } from "vitest";
import { chosen, count, kg, passBodies, shelf, striped, type Walk, weighed } from "../fake-spreading";
import type { WalkDraft } from "../types";

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
      message: expect.stringContaining("Add at most 4"),
    });
    expect(walk.draft.value?.pass?.added_kg).toBe(0);
    expect(walk.draft.value?.pour.added.amount).toBe("5");
  });

  it("is refused once the whole aim is loaded", async () => {
    const walk = await striped();
    await pouring(walk, { from: "more", added: kg("1") });
    expect(await walk.pour()).toBe(false);
    expect(walk.pourTrouble.value?.message).toContain("is loaded");
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
    expect(walk.pourTrouble.value?.message).toContain("Add at most 1");
  });
});
