/**
 * Warmth of the soil as this phone works it out: the days of weather and the thermometer readings of the log go to the
 * engine, what it says is followed. Nothing waits for it.
 */
import { dayAfter } from "../../../format";
import { dayOfMoment } from "../../../format/moment";
import { type Engine, type Followed, follow } from "../../../platform/engine/ask";
import type { Answer, Args, Value } from "../../../platform/engine/types";
import type { Store } from "../../../platform/store/types";
import { type Entry, given, instantOf, isAhead } from "../../../records/entries";
import { standingIn } from "../../../records/log/read";
import type { DaysModel, Known } from "./days";

/** Days that lead up to the first one shown: readings are forgotten within weeks, the air within days. */
const LEAD_DAYS = 60;

type Asked = Args<"warmth.chart">;
export type SoilJob = "pre_emergent" | "feed_warm" | "seed_cool";

export interface SoilWanted {
  /** Readings of this zone, and of the whole yard; of any zone where none is named. */
  zoneId?: string;
  /** Days shown before today and after it; today alone where not said. */
  back?: number;
  ahead?: number;
  /** Jobs whose warmth is marked. */
  jobs?: () => readonly SoilJob[];
}

interface SoilBase {
  known: Known;
  readings: NonNullable<Asked["readings"]>;
  jobs: readonly SoilJob[];
  first: string;
  today: string;
}

export interface Soil {
  chart: Value<"warmth.chart">;
  /** Where the air of each day comes from. */
  air: ReadonlyMap<string, "own" | "fetched" | "climate">;
  /** What it rests on: own readings too, the air of these days alone, or nothing but the climate. */
  from: "readings" | "air" | "climate";
  /** Day of the newest reading that counts. */
  readOn?: string;
  /** The moment at which the days of weather came; nothing where none came. */
  fetchedAt?: string;
}

export interface SoilParts {
  store: Pick<Store, "rows" | "loaded">;
  engine: Engine;
  day: () => string;
  days: Pick<DaysModel, "known" | "join">;
}

/** A reading as the engine takes it, of the clock of the place it was read at. */
function readingOf({ at, body }: Entry): SoilBase["readings"][number] {
  const { temperature_c: c, depth_mm, error_c } = body;
  return { date: dayOfMoment(at), c, ...given({ depth_mm, error_c }) };
}

export function createSoil({ store, engine, day, days }: SoilParts) {
  const after = [store.loaded("entry")];

  /** Thermometer readings of the soil that stand, the oldest first. */
  function readings(first: string, zoneId: string | undefined): SoilBase["readings"] {
    const ofSoil = ({ body }: Entry) => body.measures === "soil" && body.temperature_c !== undefined;
    const here = ({ zoneIds }: Entry) => !zoneId || !zoneIds.length || zoneIds.includes(zoneId);
    return standingIn(store, "reading")
      .filter((one) => !one.sick.length && ofSoil(one) && here(one) && !isAhead(one, day()))
      .sort((a, b) => instantOf(a) - instantOf(b))
      .map(readingOf)
      .filter(({ date }) => date >= first && date <= day());
  }

  async function work({ known, readings, jobs, first, today }: SoilBase): Promise<Answer<Soil>> {
    const joined = await days.join(known);
    if (joined.error) return joined;
    const told = joined.value.days.filter(({ mean_c }) => mean_c !== undefined);
    const asked = { days: told as Asked["days"], readings, jobs, first, today };
    const said = await engine.call("warmth.chart", asked);
    if (said.error) return said;
    const air = new Map(told.map(({ date, of }) => [date, of] as const));
    const value: Soil = {
      chart: said.value,
      air,
      from: said.value.readings ? "readings" : isFelt({ chart: said.value, air }, today) ? "air" : "climate",
      ...given({ readOn: newestUsed(said.value, readings), fetchedAt: known.fetchedAt }),
    };
    return { ...said, value };
  }

  /** Followed while somebody looks; nothing until the book and the weather were read. */
  function follows({
    zoneId,
    back = 0,
    ahead = 0,
    jobs = () => [],
  }: SoilWanted = {}): Followed<Answer<Soil>> {
    const base = (): SoilBase | null => {
      const known = days.known(back + LEAD_DAYS, ahead);
      if (!known) return null;
      const first = dayAfter(day(), -back);
      const told = readings(known.join.first, zoneId);
      return { known, readings: told, jobs: jobs(), first, today: day() };
    };
    return follow(work, base, { keep: true, after });
  }

  return { follows };
}

/** Whether anything but the climate tells of the days that the soil still feels. */
export function isFelt({ chart, air }: Pick<Soil, "chart" | "air">, today: string): boolean {
  const { felt_from: first } = chart;
  return first !== null && [...air].some(([date, of]) => of !== "climate" && date >= first && date <= today);
}

/** The depth is that of the newest reading, so that one counts wherever any does. */
function newestUsed(chart: Value<"warmth.chart">, readings: SoilBase["readings"]): string | undefined {
  return chart.readings ? readings.at(-1)?.date : undefined;
}

export type SoilModel = ReturnType<typeof createSoil>;
