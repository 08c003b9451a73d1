import { signal } from "@preact/signals";
import { cleanup, fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { Settled } from "../../../platform/engine/fake-engine";
import { fakeBook, fakeEngine, groups, wholeBody } from "../../../records/fake-book";
import { createNames } from "../../../records/log/names";
import { createCurve } from "../model/curve";
import { createShed } from "../model/shed";
import { createTrays } from "../model/trays";

const SPREADER = "018f0000-0000-7000-8000-00000000000a";
const NOW = "2026-05-14T18:00:00+02:00";
const made = vi.hoisted(() => ({
  models: {} as Record<string, any>,
  answers: {} as Settled,
}));
vi.mock("../model", () => ({
  get shed() {
    return made.models["shed"];
  },
  get trays() {
    return made.models["trays"];
  },
  get curve() {
    return made.models["curve"];
  },
}));
vi.mock("../../../records/log/named", () => ({
  nameOf: (id: string | undefined) => made.models["names"].nameOf(id),
}));
vi.mock("../../../platform/session/session", () => ({ units: signal("metric"), former: signal(false) }));
vi.mock("../../../platform/engine", async () => {
  const { answersAtOnce } = await import("../../../platform/engine/fake-engine");
  return { useEngine: answersAtOnce(() => made.answers) };
});

const { TraysPage } = await import("./trays");
const { CurvePart } = await import("./curve-part");

const TESTED = {
  by_spacing: [
    { spacing_m: 0.6, cv_share: 0.05, mean_g: 8 },
    { spacing_m: 1.2, cv_share: 0.14, mean_g: 4 },
    { spacing_m: 1.8, cv_share: 0.4, mean_g: 2.7 },
  ],
  widest_m: 1.2,
  widest_by_limit_m: 1.2,
  cut_off: false,
  cv_at_widest: 0.14,
  overlapped_g: [4, 4, 4, 4],
  lopsided_share: 0.42,
  half_catch_m: 1.1,
  touchy: false,
};
const POINT = { rate_kg_m2: { low: 0.01, mid: 0.02, high: 0.03 } };
const PAST = { same_product: true, bad_chance: 0.7, left_out: null };
const CURVE = {
  points: [1, 5, 10].map((dial) => ({ dial, ...POINT })),
  past: [{ ...PAST, index: 0, dial: 5, rate_kg_m2: 0.02, measured_kg_m2: 0.02 }],
  passes_used: 1,
  band_share: 0.44,
  within_share: 0.2,
};

function book() {
  const store = fakeBook();
  let count = 0;
  store.newId = () => `018f0000-0000-7000-8000-0000000001${String(count++).padStart(2, "0")}`;
  const parts = {
    store,
    system: () => "metric" as const,
    now: () => NOW,
    memberId: () => undefined,
    check: () => ({}),
  };
  const engine = fakeEngine({ "record.totals": {} });
  store.put({
    t: "spreader",
    id: SPREADER,
    groups: groups({
      name: { name: "Rotary" },
      dial: { lowest: 1, highest: 10, step: 0.5 },
      walking: { swath_m: 1.5, speed_m_s: 1.3 },
    }),
  });
  store.put({ t: "product", id: "slow", groups: groups({ name: { name: "Slow", sort: "fertilizer" } }) });
  made.models = {
    shed: createShed({ ...parts, engine, day: () => "2026-05-14" }),
    trays: createTrays(parts),
    curve: createCurve(parts),
    names: createNames(store),
  };
  return store;
}

beforeEach(() => {
  made.answers = {
    "swath.tray_test": TESTED,
    "spreading.curve": CURVE,
  };
});
afterEach(cleanup);

const type = (label: RegExp | string, value: string) =>
  fireEvent.input(screen.getByLabelText(label), { target: { value } });

async function fillTrays(): Promise<void> {
  render(<TraysPage id={SPREADER} />);
  await screen.findByLabelText("Trays in the row");
  type("Trays in the row", "3");
  type("Tray spacing", "60");
  for (const [k, grams] of ["2", "5", "3"].entries()) type(new RegExp(`^Tray ${k + 1}\\b`), grams);
}

describe("a tray test on the phone", () => {
  it("says the widest swath, and a lopsided throw in words with what it costs", async () => {
    book();
    await fillTrays();
    const says_ = screen.getByRole("region", { name: "Result" });
    expect(within(says_).getByText(/Widest swath within 15%/)).toBeTruthy();
    expect(says_.textContent).toContain("It throws more to the right: 58%");
    expect(
      within(says_).getByRole("row", { name: /Half the rate, strips half as far apart/ }).textContent,
    ).toContain("7.9%");
  });

  it("uses the swath by one button and saves the test into the log", async () => {
    const store = book();
    await fillTrays();
    fireEvent.click(screen.getByRole("button", { name: /^Use 1.2.m as the swath$/ }));
    await waitFor(() =>
      expect(store.row("spreader", SPREADER).value?.groups["walking"]?.value).toMatchObject({
        swath_m: 1.2,
        speed_m_s: 1.3,
      }),
    );
    fireEvent.click(screen.getByRole("button", { name: "Save the test" }));
    await waitFor(() => expect(made.models["trays"].past(SPREADER)).toHaveLength(1));
    expect(made.models["trays"].past(SPREADER)[0].body).toMatchObject({
      catches_g: [2, 5, 3],
      widest_m: 1.2,
    });
  });

  it("does not offer a distance over the limit as the swath", async () => {
    book();
    await fillTrays();
    fireEvent.change(screen.getByLabelText("Distance between strips"), { target: { value: "2" } });
    await screen.findByText(/is over the limit/);
    expect(screen.queryByRole("button", { name: /as the swath/ })).toBeNull();
  });

  it("names the trays that are missing when it is saved too early", async () => {
    const store = book();
    render(<TraysPage id={SPREADER} />);
    await screen.findByLabelText("Trays in the row");
    fireEvent.click(screen.getByRole("button", { name: "Save the test" }));
    expect((await screen.findAllByText(/Enter what this tray caught/)).length).toBe(11);
    expect(store.saved).toEqual([]);
  });
});

describe("the learned curve of a spreader", () => {
  it("teaches what will stand there before anything was walked", () => {
    book();
    render(<CurvePart id={SPREADER} />);
    expect(screen.getByRole("heading", { name: "No pass yet" })).toBeTruthy();
    expect(screen.getByRole("link", { name: "Start spreading" })).toBeTruthy();
  });

  it("says how sure it is, lists its passes, and leaves one out on a tap", async () => {
    const store = book();
    const body = wholeBody({
      kind: "pass",
      spreader_id: SPREADER,
      product_id: "slow",
      dial: 5,
      area_m2: 100,
      used_kg: 2,
    });
    store.put({ t: "entry", id: "one", body: { ...body, measured: "scale", occurred_at: NOW } });
    render(<CurvePart id={SPREADER} />);
    expect(screen.getByText("within ± 20%")).toBeTruthy();
    expect(screen.getByText(/Slow · looks off/)).toBeTruthy();
    fireEvent.click(screen.getByRole("button", { name: /^Ignore:/ }));
    await waitFor(() =>
      expect(made.models["curve"].rows(made.models["shed"].spreaders.value[0])[0].past.bad).toBe(true),
    );
    expect(screen.getByRole("button", { name: /^Use this pass:/ })).toBeTruthy();
  });
});
