import { describe, expect, it } from "vitest";
import { fakeEngine, notForeseen, refuses } from "./fake-engine";
import { RECORDED } from "./recorded.gen";

const RATE = { net_kg: 20, coverage_m2: 400 };

describe("the engine of the tests", () => {
  it("gives the recorded answer, with what the test says of it", async () => {
    const engine = fakeEngine({ "spread.pour": { may_add_kg: 1 }, "label.rate": {} });
    const job = { plan: { load_kg: 6, target_kg: 10, passes: 2 }, passes: [] };
    const on_foot = { added_kg: 0, there_kg: 6, base_kg: 6 };
    expect((await engine.call("spread.pour", { ...job, on_foot })).value).toEqual({
      ...RECORDED["spread.pour"],
      may_add_kg: 1,
    });
    expect((await engine.call("label.rate", RATE)).value).toEqual(RECORDED["label.rate"]);
  });

  it("hands refusals on, and tells what was asked of each call", async () => {
    const engine = fakeEngine({ "label.rate": ({ net_kg }) => (net_kg > 9 ? refuses("much") : {}) });
    expect((await engine.call("label.rate", RATE)).error?.message).toBe("much");
    expect(engine.askedOf("label.rate")).toEqual([RATE]);
    expect(engine.askedOf("record.due")).toEqual([]);
  });

  it("fails the test that asks what was not set up, even where a model swallows it", async () => {
    const engine = fakeEngine({});
    await expect(engine.call("label.rate", RATE)).rejects.toThrow("label.rate");
    expect(notForeseen()).toEqual(["label.rate"]);
  });

  it("is refused by the compiler for a name, a field or a type that no answer has", () => {
    // @ts-expect-error: no such call
    fakeEngine({ "label.rates": {} });
    // @ts-expect-error: no such field
    fakeEngine({ "label.rate": { rate: 1 } });
    // @ts-expect-error: no such field in an answer worked out
    fakeEngine({ "label.rate": () => ({ rate: 1 }) });
    // @ts-expect-error: a text is no rate
    fakeEngine({ "label.rate": { rate_kg_m2: "1" } });
    // @ts-expect-error: a row without its other fields
    fakeEngine({ "record.due": () => ({ zones: { z: { state: "due" } } }) });
    // @ts-expect-error: no such argument
    fakeEngine({ "label.rate": ({ net_lb }) => ({ rate_kg_m2: net_lb }) });
  });
});
