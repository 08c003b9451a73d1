// @vitest-environment happy-dom
import { describe, expect, it } from "vitest";
import { sayUnused } from "./words";

const NO_BREAK = /\u00a0/g; // a figure and its unit stay together

const one = { group: "g", product: "p", rate_kg_m2: 0.05, most_kg_m2: 0.0106 };

describe("a product that the plan can't use", () => {
  it("is too strong beside what the rules allow, in the person's own unit", () => {
    // 0.05 and 0.0106 kg/m2 are 10.24 and 2.17 lb on 1,000 ft2 (92.903 m2, 0.45359 kg).
    expect(sayUnused({ ...one, why: "too_strong" }, "us").replace(NO_BREAK, " ")).toBe(
      "Too strong: the label says 10.2 lb/1,000 ft², the rules here allow 2.17 lb/1,000 ft² at once.",
    );
    expect(sayUnused({ ...one, why: "too_strong" }, "metric").replace(NO_BREAK, " ")).toBe(
      "Too strong: the label says 5 kg/100 m², the rules here allow 1.06 kg/100 m² at once.",
    );
  });

  it("says of each other reason what keeps it out", () => {
    const whys = ["not_gentle", "phosphate", "no_week", "little_need"] as const;
    const said = whys.map((why) => sayUnused({ ...one, why, most_kg_m2: null }, "us"));
    expect(new Set(said).size).toBe(whys.length);
    expect(said.every((words) => words.endsWith("."))).toBe(true);
  });
});
