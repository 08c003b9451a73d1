/** Warnings on Today: the newest few at once, the rest a tap away, so that a log full of doubles stays quick. */
import { signal } from "@preact/signals";
import { cleanup, fireEvent, render, screen } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import type { Clash } from "../model/clashes";

const open = signal<Clash[]>([]);
vi.mock("../model/clashing", () => ({ clashes: { open, entriesOf: () => [], workingOf: () => [] } }));
vi.mock("../../../platform/session/session", async () => {
  const { signal: made } = await import("@preact/signals");
  return { units: made("metric") };
});
vi.mock("../../../records/log/named", () => ({ nameOf: () => "Slow feed", sayZones: () => "Bank" }));
vi.mock("./settle", () => ({ SettleSheet: () => null }));
vi.mock("../../log", () => ({ StrikeSheet: () => null }));
const { ClashCards } = await import("./card");
const { sayCautions, sayTitle, sayWhat } = await import("./text");

const some = (count: number): Clash[] =>
  Array.from({ length: count }, (_, at) => ({
    key: `same_job:${at}:x`,
    kind: "same_job",
    entry_ids: [`${at}`, "x"],
    zone_ids: ["z"],
    date: "2026-05-13",
    product_id: null,
    days_between: 0,
    interval_days: null,
    assumed: false,
    n_year_kg_m2: null,
    amount_kg_m2: null,
    ceiling_kg_m2: null,
    window_days: null,
    source: "definition",
  }));

afterEach(cleanup);

describe("warnings on Today", () => {
  it.each([
    [1, 1],
    [5, 5],
    [6, 6],
    [7, 5],
    [400, 5],
  ])("of %d shows %d at first", (count, shown) => {
    open.value = some(count);
    render(<ClashCards />);
    expect(screen.getAllByRole("article")).toHaveLength(shown);
    expect(screen.queryAllByRole("button", { name: /^Show/ })).toHaveLength(shown < count ? 1 : 0);
  });

  it("shows the rest when asked", () => {
    open.value = some(8);
    render(<ClashCards />);
    fireEvent.click(screen.getByRole("button", { name: "Show 3 more warnings" }));
    expect(screen.getAllByRole("article")).toHaveLength(8);
    expect(screen.queryByRole("button", { name: /^Show/ })).toBeNull();
  });
});

describe("a step of the plan done twice", () => {
  const [one] = some(1);
  const twice = { ...(one as Clash), kind: "step_twice" as const };

  it("says how many entries say so, and to check before more goes down", () => {
    expect(sayTitle(twice)).toBe("One step of the plan done twice?");
    expect(sayWhat(twice, "us")).toBe(
      "Bank: 2 entries say they did one step of the season plan. If it was one job, cross out the others.",
    );
    expect(sayCautions(twice)).toEqual(["Check the log before you put down more on Bank."]);
    expect(sayCautions({ ...twice, zone_ids: [] })).toEqual([]);
  });
});
