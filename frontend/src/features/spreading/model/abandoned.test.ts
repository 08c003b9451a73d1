import { afterEach, describe, expect, it } from "vitest";
import { rest, type Wait, waitBy } from "../../../records/rest";
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
    const spreading = await striped();
    await count(spreading, 2);
    await spreading.ranOut();
    await spreading.back();
    await count(spreading, 9);
    await spreading.endPass();
    expect(spreading.step.value).toBe("left");
    expect(spreading.draft.value?.left).toMatchObject({ way: "scale", covered: "" });
    expect(await spreading.record()).toBe(false);
  });

  it("gives the way of reading back that was used before it", async () => {
    const spreading = await striped();
    await spreading.change(left(spreading.draft.value, { way: "level", level_share: 0.5 }));
    await spreading.ranOut();
    await spreading.ranOut();
    await spreading.back();
    await spreading.endPass();
    expect(spreading.draft.value?.left).toMatchObject({ way: "level", level_share: 0.5 });
  });

  it("is not preselected either where it, or a blocked gate, was chosen by hand", async () => {
    for (const way of ["ran_out", "nothing"] as const) {
      const spreading = await striped();
      await spreading.endPass();
      await spreading.change(left(spreading.draft.value, { way, covered: "2 of 11" }));
      await spreading.back();
      await spreading.endPass();
      expect(spreading.draft.value?.left).toMatchObject({ way: "scale", covered: "" });
    }
  });

  it("holds where the run-out itself is gone on with", async () => {
    const spreading = await striped();
    await count(spreading, 5);
    await spreading.ranOut();
    expect(spreading.draft.value?.left).toMatchObject({ way: "ran_out", covered: "5 of 11" });
  });
});

describe("what is left, half told", () => {
  it("stays through a step back", async () => {
    const spreading = await striped();
    await spreading.endPass();
    await spreading.change(left(spreading.draft.value, { weight: kg("4.2") }));
    await spreading.back();
    await spreading.endPass();
    expect(spreading.draft.value?.left.weight).toEqual(kg("4.2"));
  });

  it("does not outlive another strip, which went on from it", async () => {
    const spreading = await striped();
    await spreading.endPass();
    await spreading.change(left(spreading.draft.value, { weight: kg("4.2") }));
    await spreading.back();
    await count(spreading, 1);
    await spreading.endPass();
    expect(spreading.draft.value?.left.weight).toEqual(kg(""));
  });
});
