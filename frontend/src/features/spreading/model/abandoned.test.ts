import { afterEach, describe, expect, it } from "vitest";
import { rest, type Wait, waitBy } from "../../../forms/rest";
import { count, kg, left, striped } from "./fake-spreading";

const atOnce: Wait = (over) => {
  over();
  return () => {};
};

afterEach(() => {
  waitBy(atOnce);
  rest.begin();
});

describe("a run-out opened by mistake", () => {
  it("is not preselected once the pass is walked to its end", async () => {
    const walk = await striped();
    await count(walk, 2);
    await walk.ranOut();
    await walk.back();
    await count(walk, 9);
    await walk.endPass();
    expect(walk.step.value).toBe("left");
    expect(walk.draft.value?.left).toMatchObject({ way: "scale", covered: "" });
    expect(await walk.record()).toBe(false);
  });

  it("gives the way of reading back that was used before it", async () => {
    const walk = await striped();
    await walk.change(left(walk.draft.value, { way: "level", level_share: 0.5 }));
    await walk.ranOut();
    await walk.ranOut();
    await walk.back();
    await walk.endPass();
    expect(walk.draft.value?.left).toMatchObject({ way: "level", level_share: 0.5 });
  });

  it("is not preselected either where it, or a blocked gate, was chosen by hand", async () => {
    for (const way of ["ran_out", "nothing"] as const) {
      const walk = await striped();
      await walk.endPass();
      await walk.change(left(walk.draft.value, { way, covered: "2 of 11" }));
      await walk.back();
      await walk.endPass();
      expect(walk.draft.value?.left).toMatchObject({ way: "scale", covered: "" });
    }
  });

  it("holds where the run-out itself is gone on with", async () => {
    const walk = await striped();
    await count(walk, 5);
    await walk.ranOut();
    expect(walk.draft.value?.left).toMatchObject({ way: "ran_out", covered: "5 of 11" });
  });
});

describe("what is left, half told", () => {
  it("stays through a step back", async () => {
    const walk = await striped();
    await walk.endPass();
    await walk.change(left(walk.draft.value, { weight: kg("4.2") }));
    await walk.back();
    await walk.endPass();
    expect(walk.draft.value?.left.weight).toEqual(kg("4.2"));
  });

  it("does not outlive another strip, which went on from it", async () => {
    const walk = await striped();
    await walk.endPass();
    await walk.change(left(walk.draft.value, { weight: kg("4.2") }));
    await walk.back();
    await count(walk, 1);
    await walk.endPass();
    expect(walk.draft.value?.left.weight).toEqual(kg(""));
  });
});
