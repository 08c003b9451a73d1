import { describe, expect, it } from "vitest";
import { unitOf } from "../../../format";
import type { ParkedRow, SentMutation } from "../../../platform/store/types";
import { type Filled, isPending, mend, mendFields } from "./rejected";

const MM = unitOf("height", "metric").key;
const ME = "019e0000-0000-7000-8000-000000000001";
const ZONE = "019e0000-0000-7000-8000-000000000002";
const AREA = "Area is too large. Allowed is up to 100000.";

function row(m: SentMutation[], why: Partial<ParkedRow["why"]> = {}): ParkedRow {
  const said = { code: "invalid", message: "Some of it cannot be used.", ...why };
  return { op: "op-1", dseq: 1, where: "parked", why: said, at: "2026-05-14T18:05:00-04:00", m };
}

const zone = (ground: object): SentMutation => ({
  t: "zone",
  id: "z",
  set: { name: { name: "Long side" }, ground },
  base: { name: null, ground: null },
});

const MOW: SentMutation = {
  t: "entry",
  id: "e",
  body: {
    kind: "mow",
    occurred_at: "2026-05-14T18:05:00-04:00",
    by: ME,
    zone_ids: [ZONE],
    cut_height_mm: 4,
  },
};

function mended(parked: ParkedRow, filled: Record<string, Filled>) {
  const done = mend(parked, filled, "metric", () => "new-id");
  if ("wrong" in done) throw new Error(JSON.stringify(done.wrong));
  return done.mutations;
}

describe("S9 F14 mending what was set aside", () => {
  it("offers what was filled in, wrong or missing, with the error beside the field it is about", () => {
    const fields = mendFields(
      row([zone({ area_m2: 900_000, method: "typed" })], { fields: { area_m2: AREA } }),
      "metric",
    );
    const errors = Object.fromEntries(fields.map(({ name, error }) => [name, error]));
    expect(Object.keys(errors)).toEqual(["name", "area_m2", "method"]);
    expect(errors["name"]).toBeUndefined();
    expect(errors["area_m2"]).toMatch(/too large/);
  });

  it("says the limit in the person's units", () => {
    const wrong = row([zone({ area_m2: 900_000, method: "typed" })]);
    expect(mendFields(wrong, "us").find(({ name }) => name === "area_m2")?.error).toMatch(/ft²/);
  });

  it("sends again what was mended, and everything else exactly as it was", () => {
    const ground = { area_m2: 900_000, method: "typed", extra_of_a_later_build: [1, 2] };
    const parked = row([zone(ground)]);
    expect(mended(parked, { "0/ground/area_m2": { amount: "120", unit: "m2" } })).toEqual([
      {
        t: "zone",
        id: "z",
        set: { name: { name: "Long side" }, ground: { ...ground, area_m2: 120 } },
      },
    ]);
  });

  it("keeps what was typed beside an amount that has room for it", () => {
    const [sent] = mended(
      row([{ t: "zone", id: "z", set: { cut: { cut_height_mm: 900, mow_every_days: 5 } } }]),
      { "0/cut/cut_height_mm": { amount: "75", unit: MM } },
    );
    expect(sent?.set).toEqual({
      cut: { cut_height_mm: 75, cut_height_typed: { amount: "75", unit: MM }, mow_every_days: 5 },
    });
  });

  it("sends nothing while a field is still wrong, and says which", () => {
    const parked = row([MOW]);
    const again = mend(parked, { "0//cut_height_mm": { amount: "3", unit: MM } }, "metric", () => "x");
    expect(again).toEqual({ wrong: { "0//cut_height_mm": expect.stringMatching(/5.*200/) } });
    const letters = mend(parked, { "0//cut_height_mm": { amount: "tall", unit: MM } }, "metric", () => "x");
    expect(letters).toEqual({ wrong: { "0//cut_height_mm": expect.any(String) } });
  });

  it("mends the body of a log entry and leaves its author and kind alone", () => {
    const typed = { amount: "60", unit: MM };
    const [sent] = mended(row([MOW]), { "0//cut_height_mm": typed });
    const body = { ...(MOW.body as object), cut_height_mm: 60, cut_height_typed: typed };
    expect(sent).toEqual({ t: "entry", id: "e", body });
    expect(mendFields(row([MOW]), "metric").map(({ name }) => name)).not.toContain("by");
  });

  it("says what is wrong with a field nobody can write by hand", () => {
    const parked = row([{ ...MOW, body: { ...(MOW.body as object), cut_height_mm: 60, by: "nobody" } }]);
    expect(mend(parked, {}, "metric", () => "x")).toEqual({ wrong: { "0//by": expect.any(String) } });
  });

  it("gives an entry whose id is taken an id of its own", () => {
    const fine = { ...MOW, body: { ...(MOW.body as object), cut_height_mm: 60 } };
    expect(mended(row([fine], { code: "body_differs" }), {})[0]?.id).toBe("new-id");
    expect(mended(row([fine]), {})[0]?.id).toBe("e");
  });

  it("S15 sends a kind this build does not know exactly as it was", () => {
    const odd: SentMutation = { t: "sprinkler", id: "s", set: { reach: { reach_m: 9 } } };
    const parked = row([odd], { code: "unknown_kind" });
    expect(mendFields(parked, "us")).toEqual([]);
    expect(mended(parked, {})).toEqual([odd]);
  });

  it("S22 knows an entry that is held for the keeper", () => {
    expect(isPending(row([MOW], { code: "pending_review" }))).toBe(true);
    expect(isPending(row([MOW]))).toBe(false);
  });
});
