// @vitest-environment node
import { describe, expect, it } from "vitest";
import { staleIn } from "./fake-replay";
import { realEngine } from "./real-engine";
import { RECORDED } from "./recorded.gen";

const RATE = { net_kg: 20, coverage_m2: 400 };
const DUE = { zones: [{ id: "verge" }], today: "2026-05-14" };
const stale = (name: Parameters<typeof realEngine>[0], args: object, value: unknown) =>
  staleIn([{ name, args, value }], realEngine);

describe("what a fake answered, asked of the engine itself", () => {
  it("is as it should be where shape and arguments are the engine's, whatever the figures and the ids", () => {
    expect(stale("label.rate", RATE, { rate_kg_m2: 99 })).toEqual([]);
    expect(stale("record.due", DUE, { zones: { a: RECORDED["record.due"].zones["z"] } })).toEqual([]);
  });

  it("is stale where a field is missing, is new or is of another kind", () => {
    const said = stale("label.rate", RATE, { rate: "1" });
    expect(said).toEqual(["label.rate: rate is not answered", "label.rate: rate_kg_m2 is missing"]);
    expect(stale("label.rate", RATE, { rate_kg_m2: "1" })).toEqual([
      "label.rate: rate_kg_m2 is string in place of number",
    ]);
    expect(stale("record.due", DUE, { zones: { a: { state: "due" } } })).toContain(
      "record.due: zones.due_on is missing",
    );
  });

  it("is stale where the engine takes no such argument or needs one more, not where it is too much", () => {
    expect(stale("label.rate", { ...RATE, bags: 2 }, { rate_kg_m2: 1 })[0]).toContain("knows no bags");
    expect(stale("label.rate", { net_kg: 20 }, { rate_kg_m2: 1 })).toHaveLength(1);
    expect(stale("label.rate", { ...RATE, net_kg: 1e9 }, { rate_kg_m2: 1 })).toEqual([]);
  });
});
