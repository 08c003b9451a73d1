import { describe, expect, it } from "vitest";
import { fakeBook, fakeEngine, fakeRow, groups } from "../../../records/fake-book";
import { createGround } from "./ground";
import { blankForm, formOf, type Measures } from "./zone-form";
import { measuredBy } from "./zone-measured";
import { callOnRecord, formReadsHigh, recordReadsHigh, type WidthRule } from "./zone-widths";

const TEN = Array.from({ length: 5 }, () => "10");

function widths(rule: WidthRule, amounts = TEN): Measures {
  const blank = blankForm("metric").measures;
  const spacing = { amount: "3.05", unit: "m" };
  return { ...blank, method: "offsets", spacing, offsets: { amounts, unit: "m" }, rule };
}

/** A zone as builds before the question kept it: 152.5 m² by the plain sum, both ends counted whole. */
function olderZone(offsets_m = [10, 10, 10, 10, 10]) {
  const { method, spacing, offsets } = widths("sum", offsets_m.map(String));
  return groups({
    name: { name: "Long side" },
    ground: {
      area_m2: 152.5,
      method,
      measured: {
        call: "area.offsets",
        args: { spacing_m: 3.05, offsets_m, method: "sum" },
        typed: { method, spacing, offsets, rule: "sum" },
      },
    },
  });
}

describe("where widths were taken", () => {
  it.each([
    ["ends", "trapezoid"],
    ["middle", "sum"],
    ["simpson", "simpson"],
  ] as const)("asks the engine for %s by the name %s", (rule, method) => {
    expect(measuredBy(widths(rule)).call).toMatchObject({ name: "area.offsets", args: { method } });
  });

  it("counts the ends half where nobody chose", () => {
    const { rule } = blankForm("us").measures;
    expect(measuredBy(widths(rule)).call?.args).toMatchObject({ method: "trapezoid" });
  });

  it("says of an older zone's plain sum that it reads high, unless its ends are points", () => {
    const ground = (zone: ReturnType<typeof olderZone>) => zone["ground"]?.value;
    expect(recordReadsHigh(ground(olderZone()))).toBe(true);
    expect(recordReadsHigh(ground(olderZone([0, 10, 10, 10, 0])))).toBe(false);
    expect(formReadsHigh("sum", TEN)).toBe(true);
    expect(formReadsHigh("sum", ["0", "10", "0"])).toBe(false);
    expect(formReadsHigh("middle", TEN)).toBe(false);
  });

  it("takes a zone written elsewhere by the sum for unsaid", () => {
    const args = { spacing_m: 3.05, offsets_m: [10, 10, 10], method: "sum" };
    const ground = { area_m2: 91.5, method: "offsets", measured: { call: "area.offsets", args } };
    const row = fakeRow({ t: "zone", id: "z2", groups: groups({ ground }) });
    expect(formOf(row, "metric").measures.rule).toBe<WidthRule>("sum");
    expect(recordReadsHigh(ground)).toBe(true);
  });

  it("leaves an older zone's area alone when something else of it is changed, and asks by the old rule", async () => {
    const store = fakeBook();
    const engine = fakeEngine({
      "record.totals": {},
      "area.offsets": ({ method }) => ({ area_m2: method === "sum" ? 152.5 : 122 }),
    });
    const parts = { store, engine, day: () => "2026-05-14", system: () => "metric" as const };
    const model = createGround({ ...parts, check: () => ({}) });
    const row = fakeRow({ t: "zone", id: "z1", groups: olderZone() });
    const editor = model.edit("z1");
    await editor.open(row);
    expect(editor.measured.value.call?.args).toMatchObject({ method: "sum" });
    editor.change({ remarks: "Bare by August." });
    await editor.save(row);
    expect(Object.keys(store.row("zone", "z1").value?.groups ?? {})).toEqual(["site"]);
    expect(formOf(row, "metric").measures.rule).toBe("sum");
  });

  it("shows the working of a call without a method by the sum that was meant then", () => {
    const args = { spacing_m: 3.05, offsets_m: [10, 10] };
    const call = callOnRecord({ measured: { call: "area.offsets", args } });
    expect(call).toEqual({ name: "area.offsets", args: { ...args, method: "sum" } });
    expect(callOnRecord({ measured: { call: "area.shapes", args: { parts: [] } } })?.args).toEqual({
      parts: [],
    });
    expect(callOnRecord({ area_m2: 9 })).toBeNull();
  });
});
