import { describe, expect, it } from "vitest";
import { chosen, count, kg, passBodies, type Spreading, shelf, striped, weighed } from "../fake-spreading";
import type { SpreadDraft } from "../types";

describe("pouring in on the way", () => {
  const pouring = (spreading: Spreading, part: Partial<SpreadDraft["pour"]>) => {
    const { pour } = spreading.draft.value ?? {};
    if (!pour) throw new Error("no walk on foot");
    return spreading.change({ pour: { ...pour, ...part } });
  };

  async function loaded(amount: string, store = shelf()) {
    const spreading = await chosen(store);
    await spreading.change({ loaded: kg(amount) });
    await spreading.setOff();
    await spreading.setStrips("verge", 10);
    return spreading;
  }

  it("from the bag beside changes what is in the hopper, not what there is", async () => {
    const spreading = await striped();
    await pouring(spreading, { from: "bag", in_bag: kg("3") });
    expect(await spreading.pour()).toBe(true);
    expect(spreading.draft.value?.pass).toMatchObject({ in_bag_kg: 3, added_kg: 0, part: { there_kg: 10 } });
    expect(spreading.draft.value?.pour.in_bag.amount).toBe("");
  });

  it("counts what was not loaded as there, in the pass and in the book", async () => {
    const store = shelf();
    const spreading = await loaded("6", store);
    await count(spreading, 2);
    await pouring(spreading, { from: "more", added: kg("3") });
    expect(await spreading.pour()).toBe(true);
    expect(spreading.draft.value?.pass).toMatchObject({
      added_kg: 3,
      part: { there_kg: 9 },
      base: { kg: 9 },
    });
    expect(spreading.standing.value?.expected_kg).toBeCloseTo(9 - 0.025 * 24, 9);
    await count(spreading, 9);
    await weighed(spreading, "4");
    expect(passBodies(store)[0]).toMatchObject({ start_kg: 6, added_kg: 3, used_kg: 5, left_kg: 4 });
  });

  it("is refused over the aim, with what is allowed", async () => {
    const spreading = await loaded("6");
    await pouring(spreading, { from: "more", added: kg("5") });
    expect(await spreading.pour()).toBe(false);
    expect(spreading.pourTrouble.value).toMatchObject({
      field: "added",
      message: expect.stringContaining("Add at most 4"),
    });
    expect(spreading.draft.value?.pass?.added_kg).toBe(0);
    expect(spreading.draft.value?.pour.added.amount).toBe("5");
  });

  it("is refused once the whole aim is loaded", async () => {
    const spreading = await striped();
    await pouring(spreading, { from: "more", added: kg("1") });
    expect(await spreading.pour()).toBe(false);
    expect(spreading.pourTrouble.value?.message).toContain("is loaded");
  });

  it("is not poured twice by two quick taps", async () => {
    const spreading = await loaded("6");
    await pouring(spreading, { from: "more", added: kg("2") });
    await Promise.all([spreading.pour(), spreading.pour()]);
    await spreading.pour();
    expect(spreading.draft.value?.pass?.added_kg).toBe(2);
  });

  it("counts earlier passes' product towards the aim", async () => {
    const spreading = await loaded("6");
    await pouring(spreading, { from: "more", added: kg("3") });
    await spreading.pour();
    await weighed(spreading, "5");
    await spreading.walkOn();
    await pouring(spreading, { from: "more", added: kg("2") });
    expect(await spreading.pour()).toBe(false);
    expect(spreading.pourTrouble.value?.message).toContain("Add at most 1");
  });
});
