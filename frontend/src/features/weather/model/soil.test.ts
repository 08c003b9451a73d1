// @vitest-environment node
import { effect, signal } from "@preact/signals";
import { describe, expect, it } from "vitest";
import { dayAfter } from "../../../format";
import { realEngine } from "../../../platform/engine/real-engine";
import type { EngineCall } from "../../../platform/engine/types";
import type { WeatherKept } from "../../../platform/store/weather";
import { fakeBook, groups, settled } from "../../../records/fake-book";
import { createDays } from "./days";
import type { Climate } from "./place";
import { createSoil, isFelt, type Soil, type SoilWanted } from "./soil";
import "../../../app/kinds";

const DAY = "2026-05-14";
const FLAT: Climate = { monthly_mean_c: Array.from({ length: 12 }, () => 15) };

interface Setting extends SoilWanted {
  climate?: Climate;
  /** Mean of each day fetched, from so many days back on. */
  fetched?: { back: number; mean_c: number; days: number };
  read?: readonly { on: string; c: number; zones?: string[]; mm?: number; kind?: object; struck?: boolean }[];
}

function kept({ back, mean_c, days }: NonNullable<Setting["fetched"]>): WeatherKept {
  const rows = Array.from({ length: days }, (_, at) => ({ date: dayAfter(DAY, at - back), mean_c }));
  const state = {
    key: "weather",
    state: "known",
    cursor: "",
    tag: "",
    wish: "",
    failures: 0,
    nextAt: 0,
  } as const;
  return { state: { ...state, fetchedAt: `${DAY}T06:00:00Z` }, days: rows };
}

async function soilOf({ climate = {}, fetched, read = [], ...wanted }: Setting = {}): Promise<Soil> {
  const store = fakeBook();
  for (const [at, { on, c, zones = [], mm, kind, struck = false }] of read.entries())
    store.put({
      t: "entry",
      id: `r${at}`,
      groups: struck ? groups({ void: { void: true, why: "", at: `${on}T10:00:00Z` } }) : {},
      body: {
        kind: "reading",
        measures: "soil",
        occurred_at: `${on}T09:00:00-04:00`,
        zone_ids: zones,
        temperature_c: c,
        ...(mm === undefined ? {} : { depth_mm: mm }),
        ...kind,
      },
    });
  const engine = { call: (async (name, args) => realEngine(name, args)) as EngineCall };
  const yes = signal(true);
  const days = createDays({
    engine,
    day: () => DAY,
    place: { loaded: yes, place: signal({}), climate: signal(climate), forecast: signal(false) },
    own: { loaded: yes, days: signal(new Map()) },
    fetched: signal(fetched && kept(fetched)),
  });
  const said = createSoil({ store, engine, day: () => DAY, days }).follows(wanted);
  const stop = effect(() => void said.value);
  for (let turn = 0; turn < 30; turn++) await settled();
  const now = said.value;
  stop();
  if (!now?.value) throw new Error(JSON.stringify(now));
  return now.value;
}

describe("the warmth of the soil", () => {
  it("is that of the climate alone where nothing else is known, and says so", async () => {
    const { chart, from, readOn, fetchedAt } = await soilOf({ climate: FLAT });
    expect(chart.now?.mid).toBeCloseTo(15, 9);
    expect({ from, readOn, fetchedAt, depth: chart.depth_mm }).toEqual({
      from: "climate",
      readOn: undefined,
      fetchedAt: undefined,
      depth: 100,
    });
  });

  it("is not known without climate and weather, and that is no error", async () => {
    expect((await soilOf()).chart).toMatchObject({ now: null, days: [] });
  });

  it("follows the air that came, and keeps the moment at which it came", async () => {
    const { chart, from, fetchedAt } = await soilOf({ fetched: { back: 90, mean_c: 9, days: 106 } });
    expect(chart.now?.mid).toBeCloseTo(9, 9);
    expect({ from, fetchedAt }).toEqual({ from: "air", fetchedAt: `${DAY}T06:00:00Z` });
  });

  it("is the climate's again once the weather that came is too old to be felt", async () => {
    const fetched = { back: 60, mean_c: 9, days: 40 };
    expect((await soilOf({ climate: FLAT, fetched })).from).toBe("climate");
    expect((await soilOf({ climate: FLAT, fetched: { ...fetched, days: 55 } })).from).toBe("air");
  });

  it("feels fewer days of the air near the surface, as the engine says", async () => {
    // Told up to nine days ago: still felt 100 mm deep, no more at 50 mm, where eight days are.
    const fetched = { back: 60, mean_c: 9, days: 52 };
    const read = [{ on: dayAfter(DAY, -20), c: 8, mm: 50 }];
    expect(isFelt(await soilOf({ climate: FLAT, fetched }), DAY)).toBe(true);
    expect(isFelt(await soilOf({ climate: FLAT, fetched, read }), DAY)).toBe(false);
  });

  it("is moved by readings, at the depth of the newest, and its range is narrower for them", async () => {
    const plain = await soilOf({ climate: FLAT });
    const { chart, from, readOn } = await soilOf({
      climate: FLAT,
      read: [{ on: "2026-05-13", c: 19, mm: 50 }],
    });
    expect({ from, readOn, depth: chart.depth_mm }).toEqual({
      from: "readings",
      readOn: "2026-05-13",
      depth: 50,
    });
    expect(chart.now?.mid).toBeGreaterThan(15.5);
    const wide = (soil: Soil["chart"]) => (soil.now?.high ?? 0) - (soil.now?.low ?? 0);
    expect(wide(chart)).toBeLessThan(wide(plain.chart));
  });

  it("of a zone goes by readings that name it or none; those crossed out, dated ahead or of the air do not count", async () => {
    const count = async (zoneId: string | undefined, read: NonNullable<Setting["read"]>) =>
      (await soilOf({ climate: FLAT, read, ...(zoneId ? { zoneId } : {}) })).chart.readings;
    const all = [
      { on: "2026-05-10", c: 17, zones: ["z"] },
      { on: "2026-05-11", c: 17, zones: ["other"] },
      { on: "2026-05-12", c: 17 },
      { on: "2026-05-20", c: 30 },
      { on: "2026-05-12", c: 30, struck: true },
      { on: "2026-05-13", c: 30, kind: { measures: "air" } },
    ];
    expect([await count("z", all), await count(undefined, all)]).toEqual([2, 3]);
  });

  it("shows the days before and to come that are asked for, and where the air of each comes from", async () => {
    const { chart, air } = await soilOf({
      climate: FLAT,
      fetched: { back: 90, mean_c: 9, days: 94 },
      back: 21,
      ahead: 10,
      jobs: () => ["pre_emergent"],
    });
    expect([chart.days[0]?.date, chart.days.at(-1)?.date]).toEqual([dayAfter(DAY, -21), dayAfter(DAY, 10)]);
    expect([air.get(DAY), air.get(dayAfter(DAY, 4))]).toEqual(["fetched", "climate"]);
    expect(chart.marks.map(({ kind }) => kind)).toContain("pre_emergent_opens");
  });
});
