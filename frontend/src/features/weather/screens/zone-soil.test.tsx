import { type Signal, signal } from "@preact/signals";
import { cleanup, render, screen } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import type { Answer } from "../../../platform/engine/types";
import { answers, refuses } from "../../../records/fake-book";
import type { Soil } from "../model/soil";

const made = vi.hoisted(() => ({ said: {} as Signal<Answer<Soil> | undefined>, of: [] as unknown[] }));
vi.mock("../model", () => ({
  soil: {
    follows: (wanted: unknown) => {
      made.of.push(wanted);
      return made.said;
    },
  },
}));
vi.mock("../../../records/live", () => ({ forming: {} }));
vi.mock("../../../platform/session/session", async () => ({
  units: (await import("@preact/signals")).signal("us"),
  former: (await import("@preact/signals")).signal(false),
}));
vi.mock("../../../platform/session/clock", () => ({ today: () => "2026-05-14" }));
vi.mock("../../../records/log/named", async () =>
  (await import("../../../records/log/names")).sayingNames(() => undefined),
);
vi.mock("../../../ui/form/schema-sheet", () => ({ SchemaSheet: () => null }));

const { ZoneSoil } = await import("./zone-soil");

const { value: CHART } = answers("warmth.chart", {
  now: { low: 10, mid: 12.8, high: 15.6 },
  depth_mm: 50.8,
  readings: 0,
  felt_from: "2026-05-06",
});
const STEP = {
  what: "Soil today, expected",
  formula: "",
  numbers: {},
  result: 12.8,
  unit: "C",
  source: "zheng_1993",
};

afterEach(cleanup);

function shown(said: Partial<Soil> | undefined) {
  const value: Soil = { chart: CHART, air: new Map(), from: "climate", ...said };
  made.said = signal(said && { value, working: [STEP], engine: "" });
  return render(<ZoneSoil id="z" />).container.textContent?.replaceAll("\u00a0", " ") ?? "";
}

describe("the warmth of a zone's soil", () => {
  it("is said with its likely range and depth, and how it is worked out is a tap away", () => {
    const text = shown({});
    expect(text).toContain("Soil now, 2 in deep");
    expect(text).toContain("likely 50–60 °F");
    expect(screen.getByRole("button", { name: /How this is worked out/ }).textContent).toContain("55");
    expect(made.of.at(-1)).toEqual({ zoneId: "z" });
    expect(screen.getByRole("link", { name: "Soil warmth chart" }).getAttribute("href")).toBe(
      "/weather/soil",
    );
  });

  it("says what it rests on, and how old that is", () => {
    expect(shown({})).toContain(
      "By the climate alone. No weather is known here. A soil reading makes it surer.",
    );
    cleanup();
    const air = new Map([["2026-05-13", "fetched"]] as const);
    const fetchedAt = "2026-05-12T06:00:00-04:00";
    expect(shown({ from: "air", air, fetchedAt })).toContain(
      "Forecast of Tue 12 May. A soil reading makes it surer.",
    );
    cleanup();
    expect(shown({ from: "readings", readOn: "2026-05-11", air, fetchedAt })).toContain(
      "Forecast of Tue 12 May. Corrected by your reading of 11 May.",
    );
  });

  it("says what is missing without place and climate, with the way there, and offers no chart", () => {
    expect(shown({ chart: { ...CHART, now: null } })).toContain(
      "Add the place and its climate to see how warm the soil is.",
    );
    expect(screen.getByRole("link", { name: "Add place and climate" }).getAttribute("href")).toBe("/weather");
    expect(screen.queryByRole("link", { name: "Soil warmth chart" })).toBeNull();
  });

  it("waits without holding anything up, and says why where the engine refuses", () => {
    expect(shown(undefined)).toContain("Working out the soil");
    screen.getByRole("button", { name: "Add a soil reading" });
    cleanup();
    made.said = signal(refuses("The reading is outside its range."));
    render(<ZoneSoil id="z" />);
    screen.getByText(/Can’t tell how warm the soil is\./);
  });
});
