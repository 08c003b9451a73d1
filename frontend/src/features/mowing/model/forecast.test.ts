// @vitest-environment node
import { effect, signal } from "@preact/signals";
import { describe, expect, it } from "vitest";
import { dayAfter } from "../../../format";
import { realEngine } from "../../../platform/engine/real-engine";
import type { Args, EngineCall } from "../../../platform/engine/types";
import type { WeatherKept } from "../../../platform/store/weather";
import { fakeBook, groups, settled, wholeBody } from "../../../records/fake-book";
import { createDays } from "../../weather/model/days";
import type { Climate, Place } from "../../weather/model/place";
import { createForecast } from "./forecast";
import "../../../app/kinds";

/** A Thursday. */
const DAY = "2026-05-14";
const MILD: Climate = { monthly_mean_c: [1, 3, 7, 11, 15, 19, 21, 20, 17, 11, 6, 2] };
const COLD: Climate = { monthly_mean_c: [-9, -7, -1, 8, 14, 19, 22, 20, 16, 9, 2, -6] };
const HERE: Place = { latitude_deg: 41.6, longitude_deg: -70.1 };

interface Setting {
  climate?: Climate;
  place?: Place;
  fetched?: WeatherKept;
  nights?: object;
  day?: string;
  cut?: string;
  grass?: string;
  /** Heights read without a cut: the day, the zones named, the height. */
  read?: readonly [string, string[], number][];
  /** Spreading jobs: the day, what the one zone got, whether it was crossed out. */
  spread?: readonly (readonly [string, Record<string, unknown>, boolean?])[];
  soil?: string;
}

const kept = (days: WeatherKept["days"]): WeatherKept => ({
  state: {
    key: "weather",
    state: "known",
    cursor: "",
    tag: "",
    wish: "",
    failures: 0,
    nextAt: 0,
    fetchedAt: `${DAY}T06:00:00Z`,
  },
  days,
});

async function evening({
  climate = {},
  place = {},
  fetched,
  nights = {},
  day = DAY,
  cut,
  grass = "tall_fescue",
  read = [],
  spread = [],
  soil,
}: Setting) {
  const store = fakeBook();
  store.put({ t: "household", id: "h", groups: groups({ rhythm: nights }) });
  const zone = {
    name: { name: "Verge" },
    grass: { grass },
    cut: { cut_height_mm: 76 },
    site: soil ? { soil } : {},
  };
  store.put({ t: "zone", id: "z", groups: groups(zone) });
  const body = {
    kind: "mow",
    occurred_at: `${cut ?? "2026-05-08"}T18:00:00Z`,
    zone_ids: ["z"],
    cut_height_mm: 76,
  };
  store.put({ t: "entry", id: "e", body });
  for (const [on, zone_ids, height_mm] of read) {
    const seen = { kind: "reading", measures: "grass", occurred_at: `${on}T18:00:00Z`, zone_ids, height_mm };
    store.put({ t: "entry", id: on, body: seen });
  }
  for (const [on, got, struck] of spread) {
    const job = { kind: "spread", occurred_at: `${on}T18:00:00Z`, zone_ids: ["z"], slow_n_share: 0.3 };
    const zones = [{ zone_id: "z", area_m2: 100, used_kg: 2, covered_m2: 90, ...got }];
    const whole = wholeBody({ ...job, used_kg: 2, zones });
    store.put({ t: "entry", id: on, body: whole, groups: struck ? groups({ void: { void: true } }) : {} });
  }
  const asked: Args<"mowing.forecast">[] = [];
  const nightsAsked: Args<"mowing.tonight">[] = [];
  const call = (async (name, args) => {
    if (name === "mowing.tonight") nightsAsked.push(args as Args<"mowing.tonight">);
    if (name === "mowing.forecast") asked.push(args as Args<"mowing.forecast">);
    return realEngine(name, args);
  }) as EngineCall;
  const engine = { call };
  const yes = signal(true);
  const days = createDays({
    engine,
    day: () => day,
    place: { loaded: yes, place: signal(place), climate: signal(climate), forecast: signal(false) },
    own: { loaded: yes, days: signal(new Map()) },
    fetched: signal(fetched),
  });
  const model = createForecast({ store, engine, day: () => day, days });
  const stop = effect(() => void model.evening.value);
  for (let turn = 0; turn < 30; turn++) await settled();
  const said = model.evening.value;
  const worked = model.worked.value;
  stop();
  if (!said?.value) throw new Error(JSON.stringify(said ?? worked));
  return { ...said.value, asked, nightsAsked, working: worked?.working ?? [] };
}

describe("the evening", () => {
  it("is foretold from the climate alone, without an age", async () => {
    const { weather, fetchedAt, nights, zones } = await evening({ climate: MILD, cut: "2026-05-10" });
    expect({ weather, fetchedAt, nights }).toEqual({ weather: true, fetchedAt: undefined, nights: [] });
    const { known, earliest, mow_by, latest } = zones["z"] ?? {};
    expect(known).toBe("forecast");
    expect([earliest, mow_by, latest]).toEqual([earliest, mow_by, latest].sort());
  });

  it("says that nothing is known without place and climate", async () => {
    expect(await evening({})).toMatchObject({ weather: false, zones: {}, nights: [] });
  });

  it("is the next of the household's nights, and skips one with rain", async () => {
    const nights = { mow_thursday: true, mow_sunday: true };
    expect(await evening({ climate: MILD, nights })).toMatchObject({
      night: DAY,
      nextNight: "2026-05-17",
      isTonight: true,
      hasNights: true,
    });
    const wet = kept([{ date: DAY, min_c: 9, max_c: 15, rain_mm: 12 }]);
    expect(await evening({ climate: MILD, nights, fetched: wet })).toMatchObject({
      night: "2026-05-17",
      isTonight: false,
      skipped: [{ date: DAY, why: "rain" }],
    });
  });

  it("says how old the forecast is, as long as it reaches to that day", async () => {
    const days = Array.from({ length: 16 }, (_, at) => ({
      date: dayAfter(DAY, at),
      min_c: 8,
      max_c: 18,
      rain_mm: 0,
    }));
    const fresh = await evening({ climate: MILD, fetched: kept(days) });
    expect(fresh.fetchedAt).toBe(`${DAY}T06:00:00Z`);
    expect(fresh.nights.map(({ date }) => date)).toEqual([DAY, "2026-05-15"]);
    const later = await evening({
      climate: MILD,
      fetched: kept(days),
      day: dayAfter(DAY, 21),
      cut: dayAfter(DAY, 16),
    });
    expect(later.fetchedAt).toBeUndefined();
    expect(later.zones["z"]?.known).toBe("forecast");
  });

  it("knows the sunset where the place is known", async () => {
    expect((await evening({ climate: MILD, place: HERE })).sunset).toMatch(/^2026-05-1[45]T/);
    expect((await evening({ climate: MILD })).sunset).toBeUndefined();
  });

  it("says that grass rests in winter, and when growth is expected again", async () => {
    const { zones } = await evening({ climate: COLD, day: "2026-12-20", cut: "2026-11-20" });
    expect(zones["z"]).toMatchObject({ state: "nearly_stopped", due: false });
    expect(zones["z"]?.growing_again?.slice(0, 7)).toMatch(/2027-0[234]/);
  });

  it("learns from heights read without a cut; of the whole yard where no zone is named", async () => {
    const none = await evening({ climate: MILD });
    const named = await evening({ climate: MILD, read: [["2026-05-12", ["z"], 140]] });
    const yard = await evening({ climate: MILD, read: [["2026-05-12", [], 140]] });
    const other = await evening({ climate: MILD, read: [["2026-05-12", ["x"], 140]] });
    expect([none, named, yard, other].map(({ zones }) => zones["z"]?.looks)).toEqual([0, 1, 1, 0]);
    // So tall four days after a cut to 76 mm, it wants the next one sooner than was thought.
    expect(String(named.zones["z"]?.mow_by) < String(none.zones["z"]?.mow_by)).toBe(true);
    expect(yard.zones).toEqual(named.zones);
  });

  it("tells what was fed, by the ground covered, and names it in the working", async () => {
    const spread = [
      ["2026-05-02", { n_kg_m2: 0.004 }],
      ["2026-05-03", { n_kg_m2: 0.004 }, true],
      ["2026-05-04", { n_kg_m2: null }],
      ["2026-05-05", { n_kg_m2: 0, used_kg: 0 }],
      ["2025-10-01", { n_kg_m2: 0.004 }],
      ["2025-05-01", { n_kg_m2: 0.004 }],
    ] as const;
    const { asked, working } = await evening({ climate: MILD, spread });
    // What was worked out is kept: nothing asks again for each drawing.
    expect(asked).toHaveLength(1);
    const fed = { zone_ids: ["z"], n_kg_m2: 0.004, slow_share: 0.3 };
    expect(asked[0]?.feeds).toEqual([
      { ...fed, date: "2026-05-02" },
      { ...fed, date: "2025-10-01" },
    ]);
    const named = working.filter(({ what }) => what.startsWith("Fed"));
    expect(named).toMatchObject([{ what: "Fed 2026-05-02: adds to today's growth", unit: "mm", of: "z" }]);
  });

  it("hands on what the days tell of water, the soil and the latitude", async () => {
    const told = { date: "2026-05-13", min_c: 9, max_c: 21, rain_mm: 4, et0_mm: 3.5 };
    const { asked } = await evening({
      climate: MILD,
      place: HERE,
      fetched: kept([told]),
      soil: "Sandy loam",
    });
    expect(asked[0]?.zones[0]).toMatchObject({ soil: "Sandy loam" });
    expect(asked[0]?.latitude_deg).toBe(41.6);
    expect(asked[0]?.days.find(({ date }) => date === told.date)).toMatchObject(told);
    expect(Object.keys(asked[0]?.days.at(-1) ?? {})).toEqual(["date", "mean_c", "sd_c"]);
  });

  it("says in the working that a dry month slows the grass", async () => {
    const rain = (rain_mm: number) =>
      kept(
        Array.from({ length: 60 }, (_, at) => ({
          date: dayAfter(DAY, at - 44),
          min_c: 8,
          max_c: 24,
          rain_mm,
          et0_mm: 5,
        })),
      );
    const [dry, wet] = await Promise.all(
      [0, 9].map((mm) => evening({ climate: MILD, fetched: rain(mm), cut: "2026-05-12" })),
    );
    const share = (said: typeof dry) =>
      said?.working.find(({ what }) => what.startsWith("Share of its water"))?.result;
    expect(share(wet)).toBe(1);
    expect(Number(share(dry))).toBeLessThan(0.3);
    expect(String(dry?.zones["z"]?.mow_by) > String(wet?.zones["z"]?.mow_by)).toBe(true);
  });

  it("asks about tonight with the heights of the three weeks that nights are looked for in", async () => {
    const { nightsAsked } = await evening({ climate: MILD });
    const dates = nightsAsked[0]?.zones[0]?.height_mm.map(({ date }) => date);
    expect(dates).toEqual(Array.from({ length: 22 }, (_, at) => dayAfter(DAY, at)));
  });

  it("names what a zone lacks", async () => {
    expect((await evening({ climate: MILD, grass: "" })).zones["z"]).toMatchObject({
      known: "no_grass",
      due: false,
    });
  });
});
