/** Nothing is saved that the contract or the engine refuses. */
import { describe, expect, it } from "vitest";
import { groups, settled } from "../../../records/fake-book";
import { chosen, count, kg, left, passBodies, shelf, striped } from "./fake-spreading";

/** A shed beside a bed of 40 m2. */
function bed() {
  const store = shelf();
  store.put({ t: "zone", id: "verge", groups: groups({ name: { name: "Bed" }, ground: { area_m2: 40 } }) });
  return store;
}

async function inBed(store = bed()) {
  const spreading = await chosen(store);
  await spreading.change({ zone_ids: ["verge"] });
  await spreading.setOff();
  await spreading.go("left");
  return spreading;
}

async function ranOut(spreading: Awaited<ReturnType<typeof inBed>>, covered: string) {
  await spreading.change(left(spreading.draft.value, { way: "ran_out", covered }));
  const shown = spreading.reading.subscribe(() => undefined);
  await settled();
  const read = spreading.reading.value;
  shown();
  return { read, saved: await spreading.record() };
}

describe("a pass over less ground than the book takes", () => {
  it("is not saved where it ran out at 1 %, and says what to do", async () => {
    const store = bed();
    const spreading = await inBed(store);
    const { saved, read } = await ranOut(spreading, "1");
    expect(saved).toBe(false);
    expect(passBodies(store)).toEqual([]);
    expect(read).toMatchObject({ ok: false, field: "covered" });
    const said = (read as { message: string }).message.replaceAll("\u00a0", " ");
    expect(said).toContain("at least 0.5 m²");
    expect(said).toContain("Enter a larger part");
  });

  it("is saved from the least ground on", async () => {
    const store = bed();
    const { saved } = await ranOut(await inBed(store), "2");
    expect(saved).toBe(true);
    expect(passBodies(store)[0]).toMatchObject({ area_m2: 0.8, ran_out: true });
  });

  it("is not saved where the only strip counted is smaller, nor offered as all that was covered", async () => {
    const store = shelf();
    const spreading = await striped(store);
    await spreading.setStrips("verge", 300);
    await count(spreading, 1);
    await spreading.go("left");
    await spreading.change(left(spreading.draft.value, { way: "scale", weight: kg("9"), whole: false }));
    expect(await spreading.record()).toBe(false);
    expect(passBodies(store)).toEqual([]);
  });
});

it("a pass with a figure beyond the contract is refused with its name, and everything typed is kept", async () => {
  const store = bed();
  const spreading = await inBed(store);
  const { pass } = spreading.draft.value ?? {};
  if (!pass) throw new Error("no walk on foot");
  await spreading.change({ pass: { ...pass, added_kg: 6000 } });
  await spreading.change(left(spreading.draft.value, { way: "scale", weight: kg("4") }));
  expect(await spreading.record()).toBe(false);
  expect(passBodies(store)).toEqual([]);
  expect(spreading.refused.value).toContain("Used is too large");
  expect(spreading.draft.value?.left.weight).toEqual(kg("4"));
});
