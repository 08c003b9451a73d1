import { describe, expect, it } from "vitest";
import { fakeRow } from "../../../../records/fake-book";
import { type Kept, keptOf, planId, yearStart } from "./book";
import { changesBetween, type Found, mondayOf } from "./changes";
import { mutationsOf } from "./keeping";

const TODAY = "2026-06-03"; // a Wednesday
const ALL = new Set(["a", "b"]);

function found(sort: Found["sort"], date: string, more: Partial<Found> = {}): Found {
  const rest = { week: 0, job: null, product: null, group: "a", zones: ["a"], kg: 1, rate_kg_m2: 0.01 };
  return { ...rest, sort, date, until: null, locked: false, why: [], ...more };
}

function kept(id: string, job: Kept["job"], from_on: string, to_on: string, more: object = {}): Kept {
  const sets = { ...{ job: { plan_id: "p", job }, window: { from_on, to_on } }, ...more };
  const groups = { ground: { zone_ids: ["a"] }, state: { state: "planned" }, ...sets };
  const values = Object.entries(groups).map(([name, value]) => [name, { value, version: "v" }]);
  const step = keptOf(fakeRow({ t: "step", id, groups: Object.fromEntries(values) }));
  if (!step) throw new Error("no step");
  return step;
}

const told = (changes: ReturnType<typeof changesBetween>) =>
  changes.map(({ what, step, was }) => [what, step?.date ?? "", was?.id ?? ""]);

describe("a plan beside the one that is kept", () => {
  it("stays the same step by step, also where this week has begun", () => {
    const steps = [found("soil_test", TODAY), found("aerate", "2026-09-07")];
    const before = [
      kept("k1", "soil_test", "2026-06-01", "2026-06-07"),
      kept("k2", "aerate", "2026-09-07", "2026-09-13"),
    ];
    expect(told(changesBetween(steps, before, ALL, TODAY))).toEqual([
      ["same", TODAY, "k1"],
      ["same", "2026-09-07", "k2"],
    ]);
  });

  it("names what moves, what is new and what goes", () => {
    const steps = [found("aerate", "2026-09-14"), found("feed", "2026-10-05", { product: "feed" })];
    const before = [
      kept("k1", "aerate", "2026-09-07", "2026-09-13"),
      kept("k2", "overseed", "2026-09-21", "2026-09-27"),
    ];
    expect(told(changesBetween(steps, before, ALL, TODAY))).toEqual([
      ["moved", "2026-09-14", "k1"],
      ["gone", "", "k2"],
      ["new", "2026-10-05", ""],
    ]);
  });

  it("takes one step of several zones for those of each group", () => {
    const steps = [found("feed", "2026-09-07"), found("feed", "2026-09-07", { group: "b", zones: ["b"] })];
    const both = { ground: { zone_ids: ["a", "b"] } };
    const before = [kept("k1", "feed", "2026-09-07", "2026-09-20", both)];
    expect(changesBetween(steps, before, ALL, TODAY).map(({ what }) => what)).toEqual(["same", "same"]);
    expect(changesBetween(steps.slice(0, 1), before, ALL, TODAY).map(({ what }) => what)).toEqual(["moved"]);
  });

  it("gives a step that was put off, or whose week went by, its new week; what is done is let be", () => {
    const off = kept("k1", "aerate", "2026-05-04", "2026-05-10", { state: { state: "put_off" } });
    const late = kept("k2", "lime", "2026-05-04", "2026-05-10");
    const done = kept("k3", "soil_test", "2026-05-04", "2026-05-10", { state: { state: "done" } });
    const steps = [found("aerate", "2026-09-07"), found("soil_test", "2026-10-05")];
    expect(told(changesBetween(steps, [off, late, done], ALL, TODAY))).toEqual([
      ["moved", "2026-09-07", "k1"],
      ["new", "2026-10-05", ""],
    ]);
  });
});

describe("a plan that is kept", () => {
  const keep = {
    planId: "plan-1",
    row: undefined,
    startsOn: "2026-01-01",
    southern: false,
    wishes: { level: "high", budget: 90, skip_months: [7] } as const,
  };

  it("is one op: the wishes, new steps, moved ones with what they were, and those that go", () => {
    const was = kept("k1", "aerate", "2026-09-07", "2026-09-13");
    const gone = kept("k2", "overseed", "2026-09-21", "2026-09-27");
    const step = found("feed", "2026-10-05", { product: "feed" });
    const [writes, backs] = mutationsOf(
      {
        ...keep,
        changes: [
          { what: "moved", step: found("aerate", "2026-09-14"), was },
          { what: "gone", was: gone },
          { what: "new", step },
        ],
      },
      () => "new-1",
    );
    expect(writes.map(({ t, id }) => `${t} ${id}`)).toEqual([
      "plan plan-1",
      "step k1",
      "step k2",
      "step new-1",
    ]);
    expect(writes[0]?.set).toMatchObject({ aim: { level: "high" }, budget: { budget: 90 } });
    expect(writes[1]?.set?.["window"]).toEqual({ from_on: "2026-09-14", to_on: "2026-09-20" });
    expect(writes[3]?.set).toMatchObject({
      job: { plan_id: "plan-1", job: "feed" },
      ground: { zone_ids: ["a"] },
      product: { product_id: "feed", rate_kg_m2: 0.01 },
    });
    expect(backs[1]?.set?.["window"]).toEqual({ from_on: "2026-09-07", to_on: "2026-09-13" });
    expect(backs.map(({ id }) => id)).toEqual(writes.map(({ id }) => id));
  });

  it("writes nothing of a step that stays the same", () => {
    const was = kept("k1", "aerate", "2026-09-07", "2026-09-13");
    const changes = [{ what: "same", step: found("aerate", "2026-09-07"), was }] as const;
    expect(mutationsOf({ ...keep, changes }, () => "x")[0].map(({ t }) => t)).toEqual(["plan"]);
  });

  it("has one id for a household and a year, whichever phone begins it", () => {
    const id = planId("01890a5d-0000-7000-8000-000000000000", "2026-01-01");
    expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    expect(planId("01890a5d-0000-7000-8000-000000000000", "2026-01-01")).toBe(id);
    expect(planId("01890a5d-0000-7000-8000-000000000000", "2027-01-01")).not.toBe(id);
  });

  it("is of the year that begins with the cold half", () => {
    expect(yearStart("2026-03-01", false)).toBe("2026-01-01");
    expect(yearStart("2026-03-01", true)).toBe("2025-07-01");
    expect(yearStart("2026-07-01", true)).toBe("2026-07-01");
    expect(mondayOf("2026-06-07")).toBe("2026-06-01");
  });
});
