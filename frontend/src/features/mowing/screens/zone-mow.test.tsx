import { signal } from "@preact/signals";
import { cleanup, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { realEngine } from "../../../platform/engine/real-engine";
import type { Args, CallName, EngineCall } from "../../../platform/engine/types";
import { type FakeBook, fakeBook, groups } from "../../../records/fake-book";
import { createNames } from "../../../records/log/names";
import { createTotals, type TotalsSignal } from "../../../records/totals";
import { createDays } from "../../weather/model/days";
import { createForecast } from "../model/forecast";
import { createMowing } from "../model/mowing";
import "../../../app/kinds";

const ZONE = "018f0000-0000-7000-8000-00000000000c";
/** A Thursday. */
const DAY = "2026-05-14";
const MILD = [1, 3, 7, 11, 15, 19, 21, 20, 17, 11, 6, 2];

const made = vi.hoisted(() => ({
  mowing: {} as ReturnType<typeof createMowing>,
  names: {} as ReturnType<typeof createNames>,
  live: {} as { engine: { call: EngineCall }; totals: TotalsSignal },
}));
vi.mock("../model", () => ({
  get mows() {
    return made.mowing.mows;
  },
  get zones() {
    return made.mowing.zones;
  },
}));
vi.mock("../model/forecast-here", () => ({}));
vi.mock("..", () => ({ MowSheet: () => null }));
vi.mock("../../../records/live", () => ({
  forming: {},
  get engine() {
    return made.live.engine;
  },
  get totals() {
    return made.live.totals;
  },
}));
vi.mock("../../../records/log/named", async () => {
  const { sayingNames } = await import("../../../records/log/names");
  return sayingNames((id) => made.names.nameOf(id));
});
vi.mock("../../../platform/session/session", () => ({ units: signal("us"), former: signal(false) }));
vi.mock("../../../platform/session/clock", () => ({ today: () => "2026-05-14" }));
vi.mock("../../../platform/engine", () => ({
  useEngine: <N extends CallName>(name: N, args: Args<N> | null) => ({
    answer: args === null ? undefined : realEngine(name, args),
    busy: false,
  }),
}));

const { ZoneMow } = await import("./zone-mow");

let store: FakeBook;

beforeEach(() => {
  store = fakeBook();
  const engine = { call: (async (name, args) => realEngine(name, args)) as EngineCall };
  const parts = { store, engine, day: () => DAY };
  made.mowing = createMowing({ ...parts, system: () => "us", now: () => "", memberId: () => undefined });
  made.names = createNames(store);
  made.live = { engine, totals: createTotals(parts) };
});
afterEach(cleanup);

interface Setting {
  climate?: number[];
  nights?: object;
  grass?: string;
  cut?: object;
}

function page({
  climate = MILD,
  nights = {},
  grass = "tall_fescue",
  cut = { cut_height_mm: 76.2 },
}: Setting = {}) {
  store.put({ t: "household", id: "h", groups: groups({ rhythm: nights }) });
  store.put({ t: "zone", id: ZONE, groups: groups({ name: { name: "Verge" }, grass: { grass }, cut }) });
  store.put({ t: "member", id: "ana", groups: groups({ name: { name: "Ana" } }) });
  const yes = signal(true);
  const { engine } = made.live;
  const days = createDays({
    engine,
    day: () => DAY,
    place: {
      loaded: yes,
      place: signal({}),
      climate: signal(climate.length ? { monthly_mean_c: climate } : {}),
      forecast: signal(false),
    },
    own: { loaded: yes, days: signal(new Map()) },
    fetched: signal(undefined),
  });
  const forecast = createForecast({ store, engine, day: () => DAY, days });
  render(<ZoneMow id={ZONE} forecast={forecast} />);
  return screen.findByRole("heading", { name: "Next mow" });
}

function mowed(on: string, facts: object = {}, id = on, zones = [ZONE]) {
  const body = { kind: "mow", occurred_at: `${on}T18:00:00Z`, zone_ids: zones, by: "ana", ...facts };
  store.put({ t: "entry", id, body });
}

const text = () => (document.body.textContent ?? "").replaceAll("\u00a0", " ");
const says = (wanted: string | RegExp) =>
  waitFor(() => {
    if (typeof wanted === "string" ? !text().includes(wanted) : !wanted.test(text())) throw new Error(text());
  });

describe("the next mow of a zone", () => {
  it("is said as Today says it, with what a cut takes today and on the coming nights, and why", async () => {
    mowed("2026-05-09", { cut_height_mm: 76.2 });
    await page({ nights: { mow_saturday: true, mow_wednesday: true } });
    await says(/By \w{3}.*, likely \w{3}.* to \w{3}/);
    await says(/A cut today would take \d+%\./);
    await says(/On Sat you would take \d+%\./);
    await says(/On Wed you would take \d+%\./);
    await says("No weather forecast. We go by the climate.");
    screen.getByRole("button", { name: "Why is it due?" });
  });

  it("says how far to come down where the night's cut would take more than a third", async () => {
    mowed("2026-04-20", { cut_height_mm: 76.2 });
    await page({ nights: { mow_thursday: true } });
    await says(/days? late/);
    await says(/A cut tonight would take \d+%\. ?That is more than a third\. Cut to [\d.]+ in first\./);
  });

  it("says that grass rests, and until when", async () => {
    mowed("2026-05-01", { cut_height_mm: 76.2 });
    await page({ climate: [-9, -9, -9, -9, -9, 14, 19, 18, 10, -9, -9, -9] });
    await says(/Resting.*Not growing\. No mow expected before \w{3} \d+ (May|Jun)\./);
    expect(text()).not.toContain("A cut today");
  });

  it("names what is missing and leads to where it is mended", async () => {
    const lacking = async (setting: Setting, words: string, link: string, href: string) => {
      await page(setting);
      await says(words);
      expect(screen.getByRole("link", { name: link }).getAttribute("href")).toBe(href);
      expect(screen.queryByRole("button", { name: "Why is it due?" })).toBeNull();
      cleanup();
    };
    mowed("2026-05-09");
    const edit = `/ground/${ZONE}/edit`;
    await lacking({ grass: "" }, "Add its grass to get a forecast.", "Add the grass", edit);
    await lacking(
      { grass: "kentucky_bluegrass", cut: {} },
      "Add a mowing height to get a forecast.",
      "Add the mowing height",
      edit,
    );
    await lacking(
      { climate: [] },
      "No forecast here. Days between mows decide.",
      "Add place and climate",
      "/weather",
    );
  });

  it("goes by the days between mows without a forecast, in Today's words", async () => {
    mowed("2026-05-09");
    await page({ climate: [], cut: { cut_height_mm: 76.2, mow_every_days: 3 } });
    await says("Overdue 2 days");
  });

  it("asks for the first mow where there is none, and tells one that is too long ago from none", async () => {
    await page();
    await says("Log its first mow to get a forecast.");
    screen.getByRole("button", { name: "Log a mow" });
    cleanup();
    mowed("2025-08-09");
    await page();
    await says("The last mow is too long ago for a forecast.");
  });
});

describe("the last cuts of a zone", () => {
  it("have the heights read without a cut among them, of this zone and of the whole yard", async () => {
    const read = (on: string, mm: number, zone_ids: string[], measures = "grass") =>
      store.put({
        t: "entry",
        id: `read ${on} ${mm}`,
        body: {
          kind: "reading",
          measures,
          occurred_at: `${on}T18:00:00Z`,
          zone_ids,
          by: "ana",
          height_mm: mm,
        },
      });
    mowed("2026-05-09", { cut_height_mm: 76.2 });
    read("2026-05-12", 101.6, [ZONE]);
    read("2026-05-05", 114.3, []);
    read("2026-05-11", 127, ["other"]);
    await page();
    await says("no cut");
    const rows = within(screen.getByRole("table")).getAllByRole("row").slice(1);
    expect(rows.map((row) => row.textContent?.replaceAll("\u00a0", " "))).toEqual([
      "12 May4 inno cutAna",
      expect.stringContaining("9 May"),
      "5 May4.5 inno cutAna",
    ]);
    within(screen.getByRole("table")).getByRole("link", { name: "12 May" });
    expect(document.querySelectorAll(".height-look")).toHaveLength(2 + 1); // and the one of the legend
    screen.getByText("Height read, no cut");
  });

  it("are drawn and listed, the latest first, with what the engine says each took", async () => {
    mowed("2026-05-02", { cut_height_mm: 76.2, height_before_mm: 101.6, minutes: 12 });
    mowed(
      "2026-05-09",
      { cut_height_mm: 80, height_after_mm: 76.2, height_before_mm: 127, minutes: 20 },
      "b",
      [ZONE, "other"],
    );
    mowed("2026-05-10", {}, "elsewhere", ["other"]);
    await page();
    await says("40%");
    const rows = within(screen.getByRole("table")).getAllByRole("row").slice(1);
    expect(rows.map((row) => row.textContent?.replaceAll("\u00a0", " "))).toEqual([
      "9 May5 in3 in40%20*Ana",
      "2 May4 in3 in25%12Ana",
    ]);
    expect(screen.getByRole("link", { name: "9 May" }).getAttribute("href")).toBe("/log/b");
    screen.getByText("* Minutes for several zones together.");
    await waitFor(() => expect(document.querySelectorAll(".height-cut .height-third")).toHaveLength(2));
    await says(/Expected today: [\d.]+ in, likely [\d.]+ to [\d.]+ in\./);
  });

  it("say what nobody noted, and are not drawn where no height is known", async () => {
    mowed("2026-05-09");
    await page({ climate: [], cut: {} });
    await says("9 May");
    expect(document.querySelectorAll(".height-drawing")).toHaveLength(0);
    expect(screen.getByRole("table").textContent).toContain("not noted");
  });

  it("are a sentence where there are none", async () => {
    await page();
    await says("No recent cuts. Log a mow with its heights and they are drawn here.");
    expect(screen.queryByRole("table")).toBeNull();
    expect(document.querySelectorAll(".height-drawing")).toHaveLength(0);
  });
});
