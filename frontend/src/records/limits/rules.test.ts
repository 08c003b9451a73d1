/** Which rules hold: those of the place, the strictest where it is not known, the household's own in their stead. */
import { describe, expect, it } from "vitest";
import { realEngine } from "../../platform/engine/real-engine";
import { fakeRow, groups } from "../fake-book";
import { type HeldRule, type RulesGroup, rulesArgs } from "./rules";

const zone = (grass?: string) =>
  fakeRow({ t: "zone", id: grass ?? "bare", groups: groups({ grass: grass ? { grass } : {} }) });

function held(rules: RulesGroup, grasses: (string | undefined)[] = ["tall_fescue"], place: object = {}) {
  const household = fakeRow({ t: "household", id: "h", groups: groups({ rules, place }) });
  const answer = realEngine("limits.rules", rulesArgs(household, grasses.map(zone)));
  expect(answer.error).toBeUndefined();
  return answer.value as NonNullable<typeof answer.value>;
}

const of = (rules: readonly HeldRule[], kind: string) => rules.filter((rule) => rule.kind === kind);

describe("the rules of a yard", () => {
  it("are the strictest of all where nobody said where it is, and say what would loosen them", () => {
    const { state, rules } = held({});
    expect(state).toBe("unknown");
    expect(of(rules, "quick_once")).toMatchObject([{ most_kg_m2: 0.002441214, assumed: true }]);
    expect(of(rules, "closed").length).toBeGreaterThan(2);
  });

  it("are those printed for its place", () => {
    const { state, rules } = held({ rules_place: "us_mn" });
    expect(state).toBe("known");
    expect(of(rules, "quick_once")).toMatchObject([
      { most_kg_m2: 0.004882428, source: "UMN-SULIS-F9", assumed: false },
    ]);
    expect(of(rules, "closed")).toEqual([]);
  });

  it("are the strictest where the place is one that only a later build knows", () => {
    expect(held({ rules_place: "us_zz" }).state).toBe("unknown");
  });

  it("are the household's own in the stead of those printed", () => {
    const own = { kind: "quick_once", most_kg_m2: 0.004, date: "2026-03-01" };
    const { rules } = held({ rules_place: "us_mn", own_rules: [own] });
    expect(of(rules, "quick_once")).toMatchObject([
      { most_kg_m2: 0.004, source: "entered by you", date: "2026-03-01" },
    ]);
  });

  it("have a year for each grass that grows here, and one for ground whose grass is not known", () => {
    const grown = (grasses: (string | undefined)[]) =>
      of(held({}, grasses).rules, "year")
        .map(({ grass }) => grass)
        .sort();
    expect(grown(["tall_fescue"])).toEqual(["tall_fescue"]);
    expect(grown(["tall_fescue", undefined])).toEqual(["tall_fescue", "unknown"]);
  });

  it("leave out northern closed dates in the south", () => {
    expect(of(held({}, [], { latitude_deg: -36 }).rules, "closed")).toEqual([]);
  });
});
