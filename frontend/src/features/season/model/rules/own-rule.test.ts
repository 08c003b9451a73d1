/** A rule of one's own: read in its units, refused with what is allowed, kept whole, and taken by the engine. */
import { signal } from "@preact/signals";
import { describe, expect, it } from "vitest";
import { realEngine } from "../../../../platform/engine/real-engine";
import { fakeBook, groups } from "../../../../records/fake-book";
import type { OwnRule, RuleKind } from "../../../../records/limits/rules";
import { limitsOf, RULE_KINDS } from "./fields";
import { createRuleForm, type RuleDraft, type RuleStart } from "./own-rule";
import { createRules } from "./rules";

const HOME = "018f0000-0000-7000-8000-000000000001";
const DAY = "2026-05-14";

function book(rules: object = {}) {
  const store = fakeBook();
  store.put({ t: "household", id: HOME, groups: groups({ name: { name: "Home" }, rules }) });
  return { store, rules: createRules({ store, session: signal({ household: { id: HOME } }) }) };
}

async function form(start: RuleStart, change: Partial<RuleDraft> = {}, made = book()) {
  const of = createRuleForm({ store: made.store, system: () => "us", day: () => DAY }, made.rules, start);
  await of.open(undefined);
  of.change(change);
  return { ...made, of };
}

const typed = (amount: string, unit: string) => ({ amount, unit });
const unitKey = async (kind: RuleKind) => {
  const { of } = await form({ kind });
  return Object.values(of.form.value?.figures ?? {})[0];
};

describe("a rule of one's own", () => {
  it("is kept in SI with its day, beside the place", async () => {
    const { unit } = (await unitKey("quick_once")) as { unit: string };
    const figures = { "quick_once.most_kg_m2": typed("0.7", unit) };
    const { of, store } = await form(
      { kind: "quick_once" },
      { figures, printed: " Town code " },
      book({ rules_place: "us_mn" }),
    );
    expect(await of.save(undefined)).toBeDefined();
    const [saved] = store.saved.at(-1) ?? [];
    expect(saved?.set).toEqual({
      rules: {
        rules_place: "us_mn",
        own_rules: [
          { kind: "quick_once", most_kg_m2: expect.closeTo(0.003417699, 8), date: DAY, printed: "Town code" },
        ],
      },
    });
  });

  it("names the field, what is wrong and what is allowed, in the field's own unit, and keeps what was typed", async () => {
    const { unit } = (await unitKey("quick_once")) as { unit: string };
    const { of, store } = await form(
      { kind: "quick_once" },
      { figures: { "quick_once.most_kg_m2": typed("-1", unit) } },
    );
    expect(await of.save(undefined)).toBeUndefined();
    expect(of.errors.value["most_kg_m2"]).toMatch(
      /^Most allowed is too small\. Allowed is 0 to [\d,]+.lb.*1,000/,
    );
    expect(store.saved).toEqual([]);
    of.change({ figures: { "quick_once.most_kg_m2": typed("half a pound", unit) } });
    expect(of.errors.value["most_kg_m2"]).toBeTruthy();
    expect(of.form.value?.figures["quick_once.most_kg_m2"]).toMatchObject({ amount: "half a pound" });
  });

  it("says what is missing where a figure is left blank, or nothing is chosen", async () => {
    const blank = { figures: { "spacing_quick.over_days": "" } };
    const { of } = await form({ kind: "spacing_quick" }, blank);
    await of.save(undefined);
    expect(of.errors.value).toEqual({ over_days: "Days to wait is missing. Allowed is 0 to 400 days." });
    const nothing = await form({ kind: "" });
    await nothing.of.save(undefined);
    expect(nothing.of.errors.value["kind"]).toBe("Choose what the rule is about.");
  });

  it("takes a closed time by month and day, and says which days a month has", async () => {
    const wrong = { first: { month: "02", day: "30" }, last: { month: "", day: "1" } };
    const { of, rules } = await form({ kind: "closed" }, wrong);
    await of.save(undefined);
    expect(of.errors.value).toEqual({
      from: "First day is not a day of February. Allowed is 1 to 29 in February.",
      to: "Last day: choose a month.",
    });
    of.change({ first: { month: "12", day: "1" }, last: { month: "02", day: "29" } });
    expect(await of.save(undefined)).toBeDefined();
    expect(rules.own.value).toEqual([{ kind: "closed", from: "12-01", to: "02-29", date: DAY }]);
  });

  it("takes the place of the one about the same, and stands beside other closed times", async () => {
    const before = [
      { kind: "spacing_quick", over_days: 30, date: DAY },
      { kind: "closed", from: "12-01", to: "02-01", date: DAY },
    ];
    const made = book({ own_rules: before });
    await made.rules.saveOwn({ kind: "spacing_quick", over_days: 40, date: DAY });
    await made.rules.saveOwn({ kind: "closed", from: "07-01", to: "07-31", date: DAY });
    expect(made.rules.own.value.map(({ kind, over_days }) => [kind, over_days])).toEqual([
      ["closed", undefined],
      ["spacing_quick", 40],
      ["closed", undefined],
    ]);
  });

  it("is undone by saying again what stood there", async () => {
    const { of, store, rules } = await form(
      { kind: "spacing_quick" },
      { figures: { "spacing_quick.over_days": "40" } },
      book({ rules_place: "us_mn" }),
    );
    const saved = await of.save(undefined);
    for (const op of ["op-1", (saved as { op?: string } | undefined)?.op ?? ""]) store.sent.add(op);
    await saved?.back?.();
    expect(rules.own.value).toEqual([]);
    expect(rules.place.value).toBe("us_mn");
  });
});

describe("the kinds of rules", () => {
  const asked = Object.entries(RULE_KINDS).map(([kind, { fields, dated }]) => ({ kind, fields, dated }));
  const ask = (rule: OwnRule) =>
    realEngine("limits.rules", { rules: [], places: [], own_rules: [rule] }).error;
  const whole = (kind: string): OwnRule => {
    const { fields, dated } = RULE_KINDS[kind as RuleKind];
    const figures = fields.map((field) => [field.name, limitsOf(kind, field).low]);
    return {
      kind,
      ...Object.fromEntries(figures),
      ...(dated ? { from: "01-01", to: "12-31" } : {}),
      date: DAY,
    };
  };

  it.each(asked)(
    "$kind is asked for all that the engine needs, in the engine's own range",
    ({ kind, fields }) => {
      expect(ask(whole(kind))).toBeUndefined();
      for (const field of fields) {
        const { low = 0, high = 0, required } = limitsOf(kind, field);
        expect(ask({ ...whole(kind), [field.name]: high })).toBeUndefined();
        for (const out of [low - 0.001, high + 0.001])
          expect(ask({ ...whole(kind), [field.name]: out })).toMatchObject({
            code: "out_of_range",
            low,
            high,
          });
        if (!required) expect(ask({ ...whole(kind), [field.name]: undefined } as OwnRule)).toBeUndefined();
      }
    },
  );
});
