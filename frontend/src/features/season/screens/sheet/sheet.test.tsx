import { signal } from "@preact/signals";
import { cleanup, fireEvent, render, screen, waitFor } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { realEngine } from "../../../../platform/engine/real-engine";
import { type FakeBook, fakeBook, groups } from "../../../../records/fake-book";
import { createMoving, type MovingModel } from "../../model/sheet/moving";
import { createSheet, type SheetModel } from "../../model/sheet/sheet";
import "../../../../app/kinds";

const ZONE = "018f0000-0000-7000-8000-00000000000a";
const PLAN = "018f0000-0000-7000-8000-00000000000c";
const STEP = "018f0000-0000-7000-8000-0000000000f1";
const HOME = "018f0000-0000-7000-8000-0000000000aa";
const MONTHS = [-4, -2, 4, 10, 16, 21, 24, 23, 18, 11, 5, -1];
const made = vi.hoisted(() => ({}) as { sheet: SheetModel; moving: MovingModel });
vi.mock("../../model/sheet", () => ({
  get sheet() {
    return made.sheet;
  },
  get moving() {
    return made.moving;
  },
}));
vi.mock("../../../../records/log/named", () => ({
  named: (_: string, otherwise: string) => otherwise,
  sayZones: (ids: readonly string[]) => ids.map(() => "Front lawn").join(", "),
}));
vi.mock("../../../../platform/session/session", () => ({ units: signal("us"), former: signal(false) }));
vi.mock("../../../../platform/session/clock", () => ({ today: () => "2026-04-01" }));

const { YearSheet } = await import(".");

let store: FakeBook;
const window_ = () => store.row("step", STEP).value?.groups["window"]?.value;

function begin(state = "planned") {
  store = fakeBook();
  const engine = { call: async (...asked: Parameters<typeof realEngine>) => realEngine(...asked) };
  store.put({ t: "household", id: HOME, groups: groups({ climate: { monthly_mean_c: MONTHS } }) });
  const grown = { grass: { grass: "tall_fescue" }, ground: { area_m2: 100, method: "typed" } };
  store.put({ t: "zone", id: ZONE, groups: groups({ name: { name: "Front lawn" }, ...grown }) });
  store.put({
    t: "step",
    id: STEP,
    groups: groups({
      job: { plan_id: PLAN, job: "aerate" },
      ground: { zone_ids: [ZONE] },
      window: { from_on: "2026-05-04", to_on: "2026-05-10" },
      lock: { locked: false },
      state: { state },
    }),
  });
  made.sheet = createSheet({
    store,
    engine,
    day: () => "2026-04-01",
    me: () => undefined,
    household: () => store.row("household", HOME).value,
    totals: () => ({ zones: {}, products: {} }) as never,
  });
  made.moving = createMoving({ store, engine, sheet: made.sheet });
}

beforeEach(() => begin());
afterEach(cleanup);

const flag = () => screen.findByRole("button", { name: /^Aerate, Front lawn, 4 May to 10 May/ });

describe("the year on the page", () => {
  it("is a picture with a button for each step, which says what the flag shows", async () => {
    render(<YearSheet />);
    expect(await flag()).toBeTruthy();
    expect(screen.getByRole("img", { name: /The year as a sheet, 1 band;/ })).toBeTruthy();
  });

  it("moves a step week by week by keys, and lets it stand where it was on Escape", async () => {
    render(<YearSheet />);
    const on = await flag();
    fireEvent.keyDown(on, { key: "ArrowRight" });
    fireEvent.keyDown(on, { key: "ArrowRight" });
    fireEvent.keyDown(on, { key: "ArrowLeft" });
    expect(await screen.findByText("11 May to 17 May.")).toBeTruthy();
    expect(await screen.findByText("No rule speaks against it.")).toBeTruthy();
    fireEvent.keyDown(on, { key: "Escape" });
    await waitFor(() => expect(screen.queryByText("11 May to 17 May.")).toBeNull());
    expect(store.saved).toHaveLength(0);
  });

  it("takes a move on Enter", async () => {
    render(<YearSheet />);
    const on = await flag();
    fireEvent.keyDown(on, { key: "ArrowLeft" });
    fireEvent.keyDown(on, { key: "Enter" });
    await waitFor(() => expect(window_()).toEqual({ from_on: "2026-04-27", to_on: "2026-05-03" }));
  });

  it("moves nothing by a tap that shook, and opens the move by one that did not", async () => {
    render(<YearSheet />);
    const on = await flag();
    fireEvent.pointerDown(on, { button: 0, clientX: 100 });
    fireEvent.pointerMove(on, { clientX: 105 });
    fireEvent.pointerUp(on);
    fireEvent.click(on);
    expect(await screen.findByText("Where it was", { exact: false })).toBeTruthy();
    expect(store.saved).toHaveLength(0);
  });

  it("does not move a step that is done", async () => {
    begin("done");
    render(<YearSheet />);
    const on = await flag();
    fireEvent.keyDown(on, { key: "ArrowRight" });
    fireEvent.click(on);
    expect(screen.queryByRole("button", { name: "Week later" })).toBeNull();
    expect(on.getAttribute("aria-disabled")).toBe("true");
  });

  it("is a list with the same moves", async () => {
    render(<YearSheet />);
    fireEvent.click(await screen.findByRole("button", { name: "As a list" }));
    fireEvent.click(
      await screen.findByRole("button", { name: "Move a week later: Aerate, 4 May to 10 May" }),
    );
    fireEvent.click(await screen.findByRole("button", { name: "Move it here" }));
    await waitFor(() => expect(window_()).toEqual({ from_on: "2026-05-11", to_on: "2026-05-17" }));
  });
});
