import { signal } from "@preact/signals";
import { cleanup, render, screen, within } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import { dayAfter } from "../../../format";
import { realEngine } from "../../../platform/engine/real-engine";
import { fakeBook, groups } from "../../../records/fake-book";
import type { SoilDrawn } from "../drawing/soil-plot";
import type { Soil } from "../model/soil";
import { jobsOf } from "../model/soil-view";

const TODAY = "2026-03-20";
const found = signal<unknown>(undefined);
const drawn: { drawn: SoilDrawn; label: string }[] = [];

vi.mock("../model", () => ({
  soil: { follows: () => Object.assign(found, { busy: signal(false) }) },
}));
vi.mock("../../../records/live", () => ({ store: fakeBook(), forming: {} }));
vi.mock("../../../platform/session/session", () => ({ units: signal("us"), former: signal(false) }));
vi.mock("../../../platform/session/clock", () => ({ today: () => TODAY }));
vi.mock("../drawing/soil-chart", () => ({
  SoilChart: (props: { drawn: SoilDrawn; label: string }) => {
    drawn.push(props);
    return <div role="img" aria-label={props.label} />;
  },
}));

const asked: unknown[] = [];
vi.mock("../../../forms/entry-form", () => ({
  createEntryForm: (_: unknown, wanted: { from?: () => object; words: { again?: string[] } }) =>
    asked.push([wanted.from?.(), wanted.words.again]),
}));
vi.mock("../../../ui/form/schema-sheet", () => ({
  SchemaSheet: ({ open, make }: { open: boolean; make: () => unknown }) => {
    if (open) make();
    return null;
  },
}));

const session = await import("../../../platform/session/session");
const units = session.units as { value: "us" | "metric" };
const { SoilPage } = await import("./soil-page");
const { setStretch } = await import("../model/soil-view");

interface Given {
  /** Air warming so much a day, from this on the first of the days. */
  from?: number;
  step?: number;
  ahead?: number;
  read?: readonly { date: string; c: number; depth_mm?: number }[];
  jobs?: readonly string[];
  of?: (date: string) => "own" | "fetched" | "climate";
  fetchedAt?: string;
}

/** As the model gives it, of what the engine itself answers. */
function show(given: Given = {}) {
  const { from = 0, step = 0.06, ahead = 240, read = [], jobs = ["pre_emergent", "seed_cool"] } = given;
  const first = dayAfter(TODAY, -150);
  const days = Array.from({ length: ahead < 0 ? 0 : 151 + ahead }, (_, at) => ({
    date: dayAfter(first, at),
    mean_c: from + step * at,
  }));
  const asked = { days, today: TODAY, first: dayAfter(TODAY, -90), readings: read, jobs };
  const said = realEngine("warmth.chart", asked as never);
  if (!("value" in said) || !said.value) throw new Error(JSON.stringify(said));
  const of = given.of ?? (() => "climate" as const);
  const value = {
    chart: said.value,
    air: new Map(days.map(({ date }) => [date, of(date)])),
    from: read.length ? "readings" : "climate",
    ...(read.length ? { readOn: read.at(-1)?.date } : {}),
    ...(given.fetchedAt ? { fetchedAt: given.fetchedAt } : {}),
  } as Soil;
  found.value = { ...said, value };
  return render(<SoilPage />);
}

afterEach(() => {
  cleanup();
  drawn.length = 0;
  units.value = "us";
  setStretch("weeks");
});

describe("the page of soil warmth", () => {
  it("says in words what it is now, how deep, when it passes what comes next, and that it is the climate's", () => {
    show();
    screen.getByText("Soil now 48 °F, likely 43–53 °F, 4 in deep.");
    screen.getByText(/^Rises past 50 °F about \d+ Apr, likely by|^Rises past 50/);
    screen.getByText(/^By the climate alone\. No weather is known here\. A soil reading makes it surer\.$/);
  });

  it("says it in the reader's units", () => {
    units.value = "metric";
    show();
    screen.getByText("Soil now 9 °C, likely 6–11.5 °C, 100 mm deep.");
  });

  it("names the forecast by its age, and the reading that corrected it", () => {
    show({
      of: (date) => (date <= dayAfter(TODAY, 10) ? "fetched" : "climate"),
      fetchedAt: "2026-03-18T06:00:00Z",
      read: [{ date: "2026-03-16", c: 12, depth_mm: 50 }],
    });
    screen.getByText(/^Forecast of Wed 18 Mar\. Corrected by your reading of 16 Mar\.$/);
    expect(screen.getByText(/^Soil now/).textContent).toContain("deep");
  });

  it("tells measured, forecast and climate apart in the table as in the chart", async () => {
    show({ of: (date) => (date <= dayAfter(TODAY, 10) ? "fetched" : "climate") });
    await vi.waitFor(() => expect(drawn.length).toBeGreaterThan(0));
    const rows = screen.getAllByRole("row").slice(1);
    const airs = rows.map((row) => within(row).getAllByRole("cell").at(-1)?.textContent);
    expect(new Set(airs)).toEqual(new Set(["measured", "forecast", "climate"]));
    expect(rows).toHaveLength(13);
    const today = screen.getByRole("row", { current: "date" });
    expect(within(today).getByRole("rowheader").textContent).toBe("Today");
    expect(drawn.at(-1)?.drawn.days).toHaveLength(85);
    expect(drawn.at(-1)?.label).toContain("The table below has the figures.");
  });

  it("shows months where they are asked for, to the last day that is known", async () => {
    show();
    setStretch("months");
    await vi.waitFor(() => expect(drawn.at(-1)?.drawn.days).toHaveLength(331));
    expect(screen.getAllByRole("row")).toHaveLength(1 + 6 + 1 + 16);
  });

  it("lists each threshold with its day and who says so, the label first", () => {
    show();
    const list = screen.getByRole("region", { name: "Thresholds" });
    within(list).getByText("Crabgrass sprouts: 55 °F");
    expect(within(list).getAllByText(/^Colder now\. Warmer from about \d+ \w{3}, likely/)).toHaveLength(4);
    expect(within(list).getAllByText("Source: common practice")).toHaveLength(2);
    within(list).getByText("The label and local rules come first.");
  });

  it("says until when a threshold is not passed, and what is possible", () => {
    show({ from: 2, step: 0 });
    expect(screen.getAllByText("Colder now, and until 15 Nov.")).toHaveLength(4);
    cleanup();
    show({ from: 9, step: 0 });
    screen.getByText("Colder now. Warmer is possible from today.");
  });

  it("lists readings, and says of one from another depth that it is not used", () => {
    show({
      read: [
        { date: "2026-03-10", c: 8, depth_mm: 150 },
        { date: "2026-03-16", c: 9, depth_mm: 50 },
      ],
    });
    const list = screen.getByRole("region", { name: "Your readings" });
    const lines = within(list)
      .getAllByRole("listitem")
      .map((line) => line.textContent);
    expect(lines).toEqual(["48\u00a0°F16 Mar", "46\u00a0°F10 Mar · read at another depth, not used here"]);
    within(list).getByRole("button", { name: "Add a reading" });
  });

  it("asks for a reading of the soil of the whole yard, whatever was read last", async () => {
    show();
    screen.getByRole("button", { name: "Add a reading" }).click();
    await vi.waitFor(() => expect(asked).toHaveLength(1));
    expect(asked[0]).toEqual([{ measures: "soil", zone_ids: [] }, ["depth_mm", "error_c"]]);
  });

  it("holds the chart's room, and says what its marks mean, before the chart is there", () => {
    show();
    const room = document.querySelector(".soil-chart > .plot-room");
    expect(room?.nextElementSibling?.textContent).toContain("Likely range, 8 in 10");
  });

  it("without climate and weather says what is missing, with the way there", () => {
    show({ ahead: -1, read: [{ date: "2026-03-16", c: 9 }] });
    screen.getByText(/Two numbers are enough\. Your readings are kept and count from then on\./);
    expect(screen.getByRole("link", { name: "Add place and climate" }).getAttribute("href")).toBe("/weather");
    expect(screen.queryByRole("table")).toBeNull();
  });

  it("shows its working, and what the engine refuses in its own words", () => {
    show();
    screen.getByRole("button", { name: "How this is worked out" });
    cleanup();
    found.value = { error: { code: "out_of_range", message: "A reading is out of range." } };
    render(<SoilPage />);
    expect(screen.getByRole("alert").textContent).toContain("A reading is out of range.");
  });
});

describe("the jobs of a household", () => {
  const zone = (grass?: string) =>
    ({ t: "zone", id: grass ?? "none", groups: groups(grass ? { grass: { grass } } : {}) }) as never;

  it("are those that wait for warmth with the grasses of its zones", () => {
    expect(jobsOf([])).toEqual(["pre_emergent"]);
    expect(jobsOf([zone(), zone("tall_fescue")])).toEqual(["pre_emergent", "seed_cool"]);
    expect(jobsOf([zone("zoysiagrass"), zone("tall_fescue")])).toEqual([
      "pre_emergent",
      "feed_warm",
      "seed_cool",
    ]);
  });
});
