/** A job begun from a step of the plan says which, and marks it done with the same op. */
import { describe, expect, it } from "vitest";
import { chosen, shelf, weighed } from "./fake-spreading";

describe("a job begun from a step", () => {
  it("is tied to it", async () => {
    const store = shelf();
    const spreading = await chosen(store);
    await spreading.change({ season_step_id: "step-1" });
    await spreading.setOff();
    await weighed(spreading, "0");
    await spreading.finish();
    const [entry, step, ...more] = store.saved.at(-1) ?? [];
    expect(entry?.body).toMatchObject({ kind: "spread", step_id: "step-1" });
    expect(step).toMatchObject({
      t: "step",
      id: "step-1",
      set: { state: { state: "done", entry_id: entry?.id } },
    });
    expect(more).toEqual([]);
  });

  it("is a job of its own once another product is chosen", async () => {
    const spreading = await chosen();
    await spreading.change({ season_step_id: "step-1" });
    await spreading.change({ product_id: "slow" });
    expect(spreading.draft.value?.season_step_id).toBeUndefined();
  });
});
