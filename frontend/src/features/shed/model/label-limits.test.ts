/** What a label says of nitrogen, uses and sowing: written as the contract has it, read back, refused with what is allowed. */
import { describe, expect, it } from "vitest";
import { fakeRow, groups } from "../../../records/fake-book";
import { checkGroup } from "../../../records/kinds";
import { blankProduct, productFormOf, productGroups } from "./shed-forms";

const typed = { name: "Plain", source: "natural", usesYear: "2", seedWait: "112" };

describe("a label's kind of nitrogen, uses and days to sowing", () => {
  it("are written and read back as typed", () => {
    const errors = {};
    const set = productGroups({ ...blankProduct("us"), ...typed }, errors);
    expect(set["analysis"]).toEqual({ source: "natural" });
    expect(set["caution"]).toEqual({ uses_year: 2, seed_wait_days: 112 });
    const row = fakeRow({ t: "product", id: "p", groups: groups(set as Record<string, object>) });
    expect(productFormOf(row, "us")).toMatchObject(typed);
  });

  it("are left out where the label does not say", () => {
    const set = productGroups({ ...blankProduct("us"), name: "Plain" }, {});
    expect([set["analysis"], set["caution"]]).toEqual([{}, {}]);
  });

  it("are refused by name, with what is allowed", () => {
    const wrong = checkGroup("product", "caution", { uses_year: 0, seed_wait_days: 500 }, "us");
    expect(wrong).toEqual({
      uses_year: "Most uses in a year is too small. Allowed is 1 to 100.",
      seed_wait_days: "Days to sowing is too large. Allowed is 0 to 400 days.",
    });
  });
});
