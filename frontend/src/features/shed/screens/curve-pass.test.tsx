/** A pass in the list says what was measured; a rate brought to today's swath, speed and product says so. */
import { cleanup, render, screen, within } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import type { LearnedPass } from "../model/curve";
import { PassLine, PassSheet } from "./curve-pass";

vi.mock("../../../records/log/named", async () =>
  (await import("../../../records/log/names")).sayingNames(() => "Plain 23-0-9"),
);
vi.mock("../model", () => ({
  curve: { entryNow: () => undefined },
}));
vi.mock("../../../platform/session/session", async () => {
  const { signal } = await import("@preact/signals");
  return { units: signal("metric") };
});
afterEach(cleanup);

const PASS: LearnedPass = {
  key: "a",
  dial: 8,
  rate_kg_m2: 0.0096,
  measured_kg_m2: 0.012,
  mark: "this",
  entryId: "a",
  at: "2026-05-01T10:00:00Z",
  product: "slow",
  bad_chance: null,
  left_out: null,
  row: {
    entryId: "a",
    spreadId: "w",
    at: "2026-05-01T10:00:00Z",
    part: null,
    past: { product: "slow", dial: 8, area_m2: 100, used_kg: 1.2, measured: "scale" },
  },
};

/** What stands there, without the spaces that keep a number with its unit. */
const plain = (node: Node | null | undefined) => (node?.textContent ?? "").replaceAll("\u00a0", " ");

const line = (over: Partial<LearnedPass> = {}) => {
  render(<PassLine pass={{ ...PASS, ...over }} write={String} open={() => undefined} />);
  return plain(screen.getByRole("listitem"));
};

describe("a pass in the list", () => {
  it("shows the rate that was measured, whatever the curve makes of it", () => {
    const said = line();
    expect(said).toContain("Dial 8: 1.2 kg/100 m²");
    expect(said).not.toContain("0.96");
  });

  it("names one whose stretch was too small to measure, and gives it no rate of the curve", () => {
    expect(line({ rate_kg_m2: null, measured_kg_m2: 0, left_out: "unmeasured", mark: "left_out" })).toContain(
      "too small to measure",
    );
  });

  it("names one that cannot be read, without a figure", () => {
    const said = line({
      dial: null,
      rate_kg_m2: null,
      measured_kg_m2: null,
      left_out: "unreadable",
      mark: "left_out",
    });
    expect(said).toContain("Can’t read this pass");
    expect(said).not.toContain("Dial");
  });
});

describe("its sheet", () => {
  const facts = (over: Partial<LearnedPass> = {}) => {
    render(<PassSheet pass={{ ...PASS, ...over }} write={String} onClose={() => undefined} />);
    return within(screen.getByRole("dialog", { hidden: true }));
  };

  it("labels the converted rate as converted, beside the measured one", () => {
    const said = facts();
    expect(plain(said.getByText("Measured rate").nextSibling)).toBe("1.2 kg/100 m²");
    expect(plain(said.getByText("At today’s swath, speed and product").nextSibling)).toBe("0.96 kg/100 m²");
  });

  it("says nothing of a conversion where there was none", () => {
    const said = facts({ rate_kg_m2: 0.012 });
    expect(said.queryByText("At today’s swath, speed and product")).toBeNull();
  });
});
