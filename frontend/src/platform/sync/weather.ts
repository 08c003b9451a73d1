/**
 * Weather by turns of its own: one tab asks the server, some hours apart, with the validator of the last answer. It never
 * holds anything up; where it cannot be had, the phone goes on with what it has and says how old that is.
 */
import { liveQuery } from "dexie";
import type { Book } from "../store/book";
import type { LiveRow, WeatherState } from "../store/db";
import { noteWeather, readWeather, takeWeather, type WeatherAnswer } from "../store/weather";
import { AFTER_SAVE_MS, MOST_RETRY_AFTER_MS, pauseMs } from "./backoff";
import { noAnswer, ODD, type Outcome, read, WIRE, type Wire } from "./http";
import { createTurns, type Turn, type Turns } from "./turns";
import { browserWorld, type World } from "./world";

const HOUR_MS = 3_600_000;
const EVERY_MS = 3 * HOUR_MS;
/** The server still asks the service, or has not heard of the place yet. */
const SOON_MS = 60_000;

export interface WeatherParts {
  book: Book;
  household: string;
  wire?: Wire;
  world?: World;
}

/** What the server said, with the validator of its answer; "same" where nothing is new. */
type Told = Outcome<{ answer: WeatherAnswer; tag: string } | "same">;

export function createWeather(given: WeatherParts): Turns {
  const parts = { wire: WIRE, world: browserWorld, ...given };
  const { book, household, world } = parts;
  const record = () => book.db.live.get(`household:${household}`);

  /** Resolves with the pause until the next try. */
  async function oneTry(): Promise<number> {
    const wish = wishOf(await record());
    if (wish === "") return HOUR_MS;
    const kept = await readWeather(book.db);
    const wait = kept.nextAt - world.now();
    if (kept.wish === wish && wait > 0 && wait <= EVERY_MS) return wait;
    return noted(await asked(household, kept, parts.wire), kept, wish);
  }

  async function noted(told: Told, kept: WeatherState, wish: string): Promise<number> {
    if (!told.ok) return failed(told.retryAfterS, kept);
    const { value } = told;
    const pause = value === "same" || settled(value.answer, wish) ? EVERY_MS : SOON_MS;
    const next = { wish, failures: 0, nextAt: world.now() + pause };
    if (value === "same") await noteWeather(book.db, next);
    else await takeWeather(book.db, value.answer, { ...next, tag: value.tag }, world.now());
    return pause;
  }

  async function failed(retryAfterS: number | undefined, kept: WeatherState): Promise<number> {
    const failures = kept.failures + 1;
    const ms = Math.min((retryAfterS ?? 0) * 1000, MOST_RETRY_AFTER_MS);
    const pause = Math.max(ms, pauseMs(failures, world.chance()));
    await noteWeather(book.db, { failures, nextAt: world.now() + ms });
    return pause;
  }

  const begin = ({ sooner }: Turn) => [followed(record, () => sooner(AFTER_SAVE_MS))];
  return createTurns(world, `weather:${book.name}`, oneTry, begin);
}

/** The place to be asked about; "" where it is not known or no keeper has turned the forecast on. */
export function wishOf(row: LiveRow | undefined): string {
  const place = row?.groups["place"]?.value;
  const on = row?.groups["forecast"]?.value?.forecast === true;
  const [lat, lon] = [place?.latitude_deg, place?.longitude_deg];
  return on && typeof lat === "number" && typeof lon === "number" ? `${tenths(lat)} ${tenths(lon)}` : "";
}

/** As the server rounds it; the last bit may differ, which costs one more question. */
const tenths = (deg: number) => (Math.round(deg * 10) / 10).toFixed(1);

/** The answer is about the place that this phone knows, and needs no second question soon. */
function settled({ state, place }: WeatherAnswer, wish: string): boolean {
  if (state !== "known") return state === "off";
  return place !== null && `${tenths(place.latitude_deg)} ${tenths(place.longitude_deg)}` === wish;
}

async function asked(household: string, { cursor, tag }: WeatherState, wire: Wire): Promise<Told> {
  try {
    const response = await wire.fetch(
      `/api/v1/households/${household}/weather?since=${encodeURIComponent(cursor)}`,
      {
        headers: { Accept: "application/json", ...(tag ? { "If-None-Match": tag } : {}) },
        credentials: "same-origin",
        cache: "no-store",
        redirect: "manual",
        signal: AbortSignal.timeout(wire.timeoutMs),
      },
    );
    if (response.status === 304) return { ok: true, status: 304, value: "same" };
    const outcome = await read<WeatherAnswer>(response);
    if (!outcome.ok) return outcome;
    if (!Array.isArray(outcome.value?.days)) return ODD;
    return { ...outcome, value: { answer: outcome.value, tag: response.headers.get("ETag") ?? "" } };
  } catch {
    return noAnswer();
  }
}

/** Calls whenever the place or the keeper's word has changed, on whichever phone. */
function followed(record: () => PromiseLike<LiveRow | undefined>, changed: () => void): () => void {
  let before: string | undefined;
  const subscription = liveQuery(async () => wishOf(await record())).subscribe((wish) => {
    if (before !== undefined && wish !== before) changed();
    before = wish;
  });
  return () => subscription.unsubscribe();
}
