/**
 * The mow of the yard as this phone works it out: the log and the days of weather go to the engine, what it says is
 * followed. Nothing waits for it; without weather it says so, and the days between mows decide.
 */
import { computed } from "@preact/signals";
import { dayAfter, daysBetween, isoMoment } from "../../../format";
import { type Engine, follow } from "../../../platform/engine/ask";
import type { Answer, Args, Refusal, Step, Value } from "../../../platform/engine/types";
import type { Row, Store } from "../../../platform/store/types";
import { type Entry, given } from "../../../records/entries";
import { standingIn } from "../../../records/log/read";
import { entryKinds } from "../../../records/log/registry";
import type { Evening, Night, ZoneMow } from "../../../records/look";
import { nightsIn } from "../../../records/mowing/rhythm";
import type { DaysModel, Joined, Known } from "../../weather";
import { lawnOf, turfOf } from "./lawns";
import { createMows } from "./mows";

/** As far back as fetched days and their lessons reach; ahead to the next spring. */
const BACK_DAYS = 150;
const AHEAD_DAYS = 240;
/** Feeds so long before are still at work when those days begin. */
const FED_DAYS = 180;
/** The engine looks for nights so far ahead. */
const NIGHT_DAYS = 21;
/** A household that has not said its nights may mow on any. */
const ANY_NIGHT = [1, 2, 3, 4, 5, 6, 7];
const NIGHTS_SAID = 2;

type Asked = Args<"mowing.forecast">;

/** Of no zone the engine is asked nothing. */
const NO_NIGHT = {
  value: { night: null, is_tonight: false, next_night: null, nights: [], zones: [] },
  working: [],
  engine: "",
  error: undefined,
};

export interface ForecastParts {
  store: Store;
  engine: Engine;
  day: () => string;
  days: Pick<DaysModel, "known" | "join">;
}

export interface Base {
  known: Known;
  zones: Asked["zones"];
  mows: Asked["mows"];
  feeds: NonNullable<Asked["feeds"]>;
  heights: NonNullable<Asked["heights"]>;
  weekdays: number[];
}

/** What was worked out, of which the evening of any day to come is a part. */
export interface Worked {
  base: Base;
  joined: Joined;
  forecast: Value<"mowing.forecast">;
}

function zoneOf(row: Row): Asked["zones"][number] {
  const lawn = lawnOf(row);
  return {
    id: lawn.id,
    ...given({
      turf: turfOf(lawn),
      target_mm: lawn.own_mm,
      low_mm: lawn.grass?.cut_mm?.low,
      high_mm: lawn.grass?.cut_mm?.high,
      shade: lawn.shade || undefined,
      soil: lawn.soil,
    }),
  };
}

/** A mow as the engine takes it; a height that was measured after the cut counts before the one that was set. */
function mowOf({ at, zoneIds, body }: Entry): Asked["mows"][number] {
  const { cut_height_mm, height_after_mm, height_before_mm, height_before_error_mm } = body;
  return {
    date: at.slice(0, 10),
    zone_ids: [...zoneIds],
    ...given({ cut_height_mm, cut_mm: height_after_mm, height_before_mm, error_mm: height_before_error_mm }),
  };
}

/** A height read without a cut; one that names no zone is of the whole yard. */
function heightOf({ at, zoneIds, body }: Entry, yard: readonly string[]): Base["heights"][number] {
  return {
    date: at.slice(0, 10),
    zone_ids: [...(zoneIds.length ? zoneIds : yard)],
    height_mm: body.height_mm,
  };
}

/** Of a kind that sums count whole (what was put down): one that says what each zone got. */
const feeding = ({ sick, body }: Entry): boolean => !sick.length && Array.isArray(body["zones"]);
const putDown = () => entryKinds().filter(({ totals }) => totals === "all");

/** What each zone got, by the ground that was covered, as the engine takes it; unknown nitrogen tells nothing. */
function feedsOf({ at, body }: Entry): Base["feeds"] {
  const slow_share = body["slow_n_share"] as number | undefined;
  const zones: readonly Record<string, unknown>[] = body["zones"];
  return zones.flatMap(({ zone_id, n_kg_m2 }) =>
    typeof zone_id === "string" && typeof n_kg_m2 === "number" && n_kg_m2 > 0
      ? [{ date: at.slice(0, 10), zone_ids: [zone_id], n_kg_m2, ...given({ slow_share }) }]
      : [],
  );
}

function nightOf({ date, min_c, max_c, rain_mm, wind_m_s }: Joined["days"][number]): Night {
  return { date, ...given({ min_c, max_c, rain_mm, wind_m_s }) } as Night;
}

/** Midnight UTC of a day and so many minutes, as this phone's clock writes it. */
const momentOf = (day: string, minutes: number) =>
  isoMoment(new Date(Date.parse(`${day}T00:00:00Z`) + minutes * 60_000));

export function createForecast({ store, engine, day, days }: ForecastParts) {
  const mows = createMows({ store });
  const feeds = computed(() => putDown().flatMap(({ kind }) => standingIn(store, kind).filter(feeding)));
  const after = [store.loaded("zone"), mows.loaded];

  function base(): Base | null {
    const known = days.known(BACK_DAYS, AHEAD_DAYS);
    if (!known) return null;
    const first = known.join.first;
    const since = (from: string) => (entry: Entry) => entry.at >= from && daysBetween(day(), entry.at) <= 0;
    const told = since(first);
    const ofGrass = ({ sick, body }: Entry) => !sick.length && body.measures === "grass" && body.height_mm;
    const zones = store.rows("zone").value.map(zoneOf);
    const yard = zones.map(({ id }) => id);
    return {
      known,
      zones,
      mows: mows.all.value.filter(told).map(mowOf),
      feeds: feeds.value.filter(since(dayAfter(first, -FED_DAYS))).flatMap(feedsOf),
      heights: mows.looks.value.filter((one) => told(one) && ofGrass(one)).map((one) => heightOf(one, yard)),
      weekdays: nightsIn(store),
    };
  }

  async function work(
    from: Base,
  ): Promise<{ value: Worked; working?: readonly Step[]; error?: undefined } | Refusal> {
    const joined = await days.join(from.known);
    if (joined.error) return joined;
    const { zones, mows, feeds, heights, known } = from;
    if (!zones.length || !joined.value.days.length)
      return { value: { base: from, joined: joined.value, forecast: { zones: {} } } };
    const asked = {
      zones,
      mows,
      heights,
      feeds,
      days: joined.value.days.map(growing),
      today: day(),
      ...given({ latitude_deg: known.place.latitude_deg }),
    };
    const forecast = await engine.call("mowing.forecast", asked);
    return forecast.error
      ? forecast
      : {
          value: { base: from, joined: joined.value, forecast: forecast.value },
          working: forecast.working,
        };
  }

  /** The evening of a day, with the working of what is said of tonight. */
  async function eveningOf(worked: Worked, on: string): Promise<Answer<Evening>> {
    const { base: from, joined, forecast } = worked;
    const rows = Object.entries(forecast.zones).flatMap((zone) => nightly(zone, on));
    const ahead = joined.days.filter(({ date }) => date >= on && date <= dayAfter(on, NIGHT_DAYS));
    const weekdays = from.weekdays.length ? from.weekdays : ANY_NIGHT;
    const weather = ahead.map(({ date, rain_mm, min_c }) => ({ date, ...given({ rain_mm, min_c }) }));
    const tonight = rows.length
      ? await engine.call("mowing.tonight", {
          zones: rows,
          weekdays,
          today: on,
          ...(weather.length ? { weather } : {}),
        })
      : NO_NIGHT;
    if (tonight.error) return tonight;
    const sunset = await sunsetOf(from.known, on);
    const { night, next_night, is_tonight, nights, zones } = tonight.value;
    const known = new Map(zones.map((zone, at) => [zone.id, { ...zone, at }] as const));
    const mows = Object.entries(forecast.zones).map(
      ([id, said]) => [id, mowOn(said, known.get(id))] as const,
    );
    const value: Evening = {
      weather: joined.days.length > 0,
      night,
      nextNight: next_night,
      isTonight: is_tonight,
      skipped: nights.filter(
        (one) => one.why !== "open" && (!night || one.date < night),
      ) as Evening["skipped"],
      hasNights: from.weekdays.length > 0,
      zones: Object.fromEntries(mows),
      nights: ahead
        .filter(({ of }) => of !== "climate")
        .slice(0, NIGHTS_SAID)
        .map(nightOf),
      ...(sunset ? { sunset } : {}),
      ...(joined.known_to && joined.known_to >= on && from.known.fetchedAt
        ? { fetchedAt: from.known.fetchedAt }
        : {}),
    };
    return { value, working: tonight.working, engine: tonight.engine };
  }

  async function sunsetOf({ place }: Known, on: string): Promise<string | undefined> {
    const { latitude_deg, longitude_deg } = place;
    if (latitude_deg === undefined || longitude_deg === undefined) return undefined;
    const said = await engine.call("weather.sunset", { latitude_deg, longitude_deg, date: on });
    const minutes = said.value?.sunset_min;
    return typeof minutes === "number" ? momentOf(on, minutes) : undefined;
  }

  const worked = follow<Base, Worked>(
    async (from) => ({ working: [], engine: "", ...(await work(from)) }) as Answer<Worked>,
    base,
    { keep: true, after },
  );
  /** Of today, as it is shown. */
  const evening = follow<{ worked: Worked; on: string }, Evening>(
    ({ worked: from, on }) => eveningOf(from, on),
    () => (worked.value?.value ? { worked: worked.value.value, on: day() } : null),
    { keep: true },
  );
  return { worked, evening, eveningOf };
}

/** A zone as the night is told of it; one whose height of cut nobody knows is left out. */
function nightly([id, said]: [string, Said], on: string): Args<"mowing.tonight">["zones"] {
  if (said.target_mm === null) return [];
  const height_mm = said.height_mm
    .filter(({ date }) => date >= on && date <= dayAfter(on, NIGHT_DAYS))
    .map(({ date, mid, high }) => ({ date, mid, high }));
  return [{ id, target_mm: said.target_mm, height_mm, ...given({ state: said.state }) }];
}

/** What growth asks of a day: its warmth, and what it brings and takes of water. */
function growing({ date, mean_c, sd_c, min_c, max_c, rain_mm, et0_mm }: Joined["days"][number]) {
  return { date, ...given({ mean_c, sd_c, min_c, max_c, rain_mm, et0_mm }) } as Asked["days"][number];
}

type OnNight = Value<"mowing.tonight">["zones"][number] & { at: number };
type Said = Value<"mowing.forecast">["zones"][string];

/** Of a zone whose height of cut nobody knows the night says nothing. */
const UNSAID = {
  due: false,
  why: "no_forecast",
  taken_share: null,
  skipped_share: null,
  cut_to_mm: null,
  at: 0,
} as const;

function mowOn(
  { known, mow_by, earliest, latest, state, growing_again, looks }: Said,
  night: OnNight | undefined,
): ZoneMow {
  const { due, why, taken_share, skipped_share, cut_to_mm, at } = night ?? UNSAID;
  return {
    known,
    mow_by,
    earliest,
    latest,
    state,
    growing_again,
    looks,
    due,
    why,
    taken_share,
    skipped_share,
    cut_to_mm,
    at,
  };
}

export type ForecastModel = ReturnType<typeof createForecast>;
