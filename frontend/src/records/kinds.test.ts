import { describe, expect, it } from "vitest";
import { allowed, checkGroup, fieldsOf, limits } from "./kinds";

describe("limits", () => {
  it("are those of fixtures/kinds", () => {
    expect(limits("zone", "ground", "area_m2")).toMatchObject({
      low: 0.5,
      high: 100000,
      unit: "m2",
      required: true,
    });
    expect(limits("product", "caution", "signal_word").choices).toContain("danger");
  });

  it("of an entry's body hold its kind's own fields and the common ones", () => {
    expect(Object.keys(fieldsOf("entry", "mow"))).toEqual(
      expect.arrayContaining(["occurred_at", "cut_height_mm"]),
    );
  });

  it("of a name that is not there are a fault of ours, not of the person", () => {
    expect(() => limits("zone", "ground", "aera_m2")).toThrow("zone.ground.aera_m2");
  });
});

describe("what is wrong with a group", () => {
  const zone = (area_m2: unknown) => ({ area_m2, method: "typed" });

  it("is nothing when all is well", () => {
    expect(checkGroup("zone", "ground", zone(120), "us")).toEqual({});
  });

  it("names the field, what is wrong and what is allowed, in the person's units", () => {
    expect(checkGroup("zone", "ground", zone(0.1), "metric")["area_m2"]).toBe(
      "Area is too small. Allowed is 0.5 to 100\u202f000\u00a0m².",
    );
    expect(checkGroup("zone", "ground", zone(0.1), "us")["area_m2"]).toMatch(
      /^Area is too small\. Allowed is 5\.382 to 1,076,000\u00a0ft²/,
    );
  });

  it("says so when a required field is missing, and leaves an optional one alone", () => {
    const wrong = checkGroup("product", "label", {}, "us");
    expect(Object.keys(wrong)).toEqual(["net_kg"]);
    expect(wrong["net_kg"]).toMatch(/^Net weight is missing\./);
  });

  it.each([
    ["spreader", "dial", { lowest: "1", highest: 24, step: 0.5 }, "lowest", /is not a number/],
    ["entry", "pass", { number: 1.5 }, "number", /must be a whole number/],
    ["member", "units", { units: "imperial" }, "units", /Choose one of: us, metric/],
    ["entry", "void", { void: "yes" }, "void", /must be yes or no/],
    ["entry", "when", { occurred_at: "yesterday" }, "occurred_at", /is not a date and time/],
    ["entry", "when", { occurred_at: "2030-02-30T08:00:00Z" }, "occurred_at", /is not a date and time/],
    ["entry", "when", { occurred_at: "2030-02-28T24:30:00Z" }, "occurred_at", /is not a date and time/],
    ["entry", "when", { occurred_at: "2030-02-28T08:00:00" }, "occurred_at", /is not a date and time/],
    ["entry", "spread", { product_id: "the big bag" }, "product_id", /is not chosen/],
    ["product", "caution", { signal_word: "" }, "signal_word", /not one of the choices/],
    ["spreader", "dial", { lowest: 24, highest: 24, step: 1 }, "highest", /must be more than the lowest, 24/],
    ["spreader", "dial", { lowest: 0, highest: 501, step: 1 }, "step", /1 to 500 clicks/],
    ["spreader", "dial", { lowest: 0, highest: 1, step: 2 }, "step", /1 to 500 clicks/],
    ["zone", "ground", { area_m2: 0.4999999, method: "typed" }, "area_m2", /too small/],
    ["zone", "name", { name: "x".repeat(61) }, "name", /61 characters\. At most 60/],
    ["zone", "ground", { area_m2: Number.NaN, method: "typed" }, "area_m2", /is not a number/],
  ] as const)("%s.%s %j: %s", (t, group, value, field, message) => {
    expect(checkGroup(t, group, value, "us")[field]).toMatch(message);
  });

  it("is not a field of a later build", () => {
    expect(checkGroup("zone", "name", { name: "Verge", nickname: 7 }, "us")).toEqual({});
  });

  it("counts characters as the server does: an emoji is one", () => {
    expect(checkGroup("zone", "name", { name: "🌱".repeat(60) }, "us")).toEqual({});
  });
});

describe("a moment of something done", () => {
  const DAY_MS = 86_400_000;
  const inDays = (days: number) => new Date(Date.now() + days * DAY_MS).toISOString();
  const body = (days: number) => ({ kind: "mow", occurred_at: inDays(days) });

  it.each([-400, 0, 0.9])("%d days from now is taken", (days) => {
    expect(checkGroup("entry", "mow", body(days), "us")).toEqual({});
    expect(checkGroup("entry", "when", { occurred_at: inDays(days) }, "us")).toEqual({});
  });

  it.each([1.1, 365])("%d days from now is refused, in every kind of entry", (days) => {
    for (const kind of ["mow", "pass", "spread", "observation", "stock_count", "tray_test"])
      expect(checkGroup("entry", kind, body(days), "us")["occurred_at"]).toMatch(/in the future/);
    expect(checkGroup("entry", "when", { occurred_at: inDays(days) }, "us")["occurred_at"]).toMatch(/future/);
  });

  it("is not a claim's day, which lies ahead", () => {
    expect(checkGroup("claim", "claim", { job: "mow", day: "2199-01-01" }, "us")).toEqual({});
  });
});

describe("what is allowed", () => {
  it("names plain numbers plainly, with the unit once", () => {
    expect(allowed(limits("product", "analysis", "n_percent"), "us")).toBe("Allowed is 0 to 100%.");
    expect(allowed(limits("product", "caution", "interval_days"), "us")).toBe("Allowed is 0 to 365 days.");
  });

  it("of a share is said in percent, as its field asks for it", () => {
    const value = { n_percent: 23, slow_n_share: 1.5 };
    for (const system of ["us", "metric"] as const)
      expect(checkGroup("product", "analysis", value, system)["slow_n_share"]).toMatch(
        /too large\. Allowed is 0 to 100%\.$/,
      );
  });

  it("is said in the unit the value was typed in", () => {
    const label = (unit: string) => ({ net_kg: 5000, net_typed: { amount: "5000", unit } });
    expect(checkGroup("product", "label", label("oz"), "metric")["net_kg"]).toMatch(/oz\.$/);
    expect(checkGroup("product", "label", label("kg"), "us")["net_kg"]).toMatch(/to 2,000\u00a0kg\.$/);
    const hopper = { top_length_m: 9, hopper_typed: { top_length_m: { amount: "354", unit: "in" } } };
    expect(checkGroup("spreader", "hopper", hopper, "us")["top_length_m"]).toMatch(/in\.$/);
  });
});
