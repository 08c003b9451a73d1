import { describe, expect, it } from "vitest";
import { type WhatIfDraft, whatIf } from "./what-if";

const draft: WhatIfDraft = { kind: "skip", month: "5", budget: "", evenings: "" };
const wishes = { level: "high", budget: 90, skip_months: [7] } as const;
const asked = (of: Partial<WhatIfDraft>) => whatIf({ ...draft, ...of }, { ...wishes }, "us");

describe("one wish changed", () => {
  it("leaves the others as they are", () => {
    expect(asked({})).toEqual({
      wishes: { level: "high", clippings: "left", only_gentle: false, budget: 90, skip_months: [5, 7] },
      says: "If you skip May",
    });
    expect(asked({ kind: "gentle" })).toMatchObject({ wishes: { only_gentle: true, budget: 90 } });
    expect(asked({ kind: "budget", budget: "40" })).toMatchObject({ wishes: { budget: 40 } });
    expect(asked({ kind: "evenings", evenings: "1" })).toMatchObject({
      wishes: { evenings_week: 1 },
      says: "With 1 evening a week",
    });
  });

  it("says what is wrong with a number, and which are allowed", () => {
    expect(asked({ kind: "budget" })).toEqual({ error: "Enter a number." });
    const { error } = asked({ kind: "evenings", evenings: "9" }) as { error: string };
    expect(error).toMatch(/0 to 7/);
  });
});
