/** Days of weather as other features ask for them: the best that is known of each, whatever it comes from. */
import { computed, type ReadonlySignal } from "@preact/signals";
import { dayAfter } from "../../../format";
import type { Engine } from "../../../platform/engine/ask";
import type { Args, Refusal, Value } from "../../../platform/engine/types";
import type { WeatherKept } from "../../../platform/store/weather";
import type { Day } from "./own-days";
import type { Climate, Place } from "./place";

export interface DaysParts {
  engine: Engine;
  /** The local day; a signal's value where it should be followed. */
  day: () => string;
  place: {
    loaded: ReadonlySignal<boolean>;
    place: ReadonlySignal<Place>;
    climate: ReadonlySignal<Climate>;
    forecast: ReadonlySignal<boolean>;
  };
  own: { loaded: ReadonlySignal<boolean>; days: ReadonlySignal<ReadonlyMap<string, Day>> };
  fetched: ReadonlySignal<WeatherKept | undefined>;
}

/** What the engine is asked, and how old the forecast is. */
export interface Known {
  climate: Args<"warmth.climate"> | null;
  join: Args<"weather.join">;
  /** The moment at which the forecast came; nothing where there is none. */
  fetchedAt: string | undefined;
  place: Place;
}

export type Joined = Value<"weather.join">;

/** As the engine takes a climate; null where none was entered. */
function climateArgs(climate: Climate, { latitude_deg }: Place): Args<"warmth.climate"> | null {
  if (climate.monthly_mean_c) return { monthly_mean_c: climate.monthly_mean_c };
  const { warmest_c, coldest_c } = climate;
  if (warmest_c === undefined || coldest_c === undefined) return null;
  return { warmest_c, coldest_c, southern: (latitude_deg ?? 0) < 0 };
}

const within = <T extends { date: string }>(days: Iterable<T>, first: string, last: string): T[] =>
  [...days].filter(({ date }) => date >= first && date <= last);

export function createDays({ engine, day, place, own, fetched }: DaysParts) {
  const loaded = computed(
    () => place.loaded.value && own.loaded.value && (fetched.value !== undefined || !place.forecast.value),
  );

  /** Undefined until all of it was read. */
  function known(back: number, ahead: number): Known | undefined {
    if (!loaded.value) return undefined;
    const [first, last] = [dayAfter(day(), -back), dayAfter(day(), ahead)];
    const here = place.place.value;
    return {
      climate: climateArgs(place.climate.value, here),
      join: {
        first,
        last,
        today: day(),
        own: within(own.days.value.values(), first, last),
        fetched: within(fetched.value?.days ?? [], first, last),
      },
      fetchedAt: fetched.value?.state.fetchedAt,
      place: here,
    };
  }

  async function join({
    climate,
    join: args,
  }: Known): Promise<{ value: Joined; error?: undefined } | Refusal> {
    const usual = climate && (await engine.call("warmth.climate", climate));
    if (usual?.error) return usual;
    const climate_c = usual?.value.daily_mean_c;
    const said = await engine.call("weather.join", climate_c ? { ...args, climate_c } : args);
    return said.error ? said : { value: said.value };
  }

  return { known, join };
}

export type DaysModel = ReturnType<typeof createDays>;
