/** Fetched weather on this phone: 400 days of it, with its age. It is never waited for and can always be fetched again. */
import type { ReadonlySignal } from "@preact/signals";
import type { BookDb, WeatherRow, WeatherState } from "./db";
import { follow } from "./live";

/** What the server answers (api/weather). */
export interface WeatherAnswer {
  state: Exclude<WeatherState["state"], "fresh">;
  place: { latitude_deg: number; longitude_deg: number } | null;
  fetched_at: string | null;
  trouble: string;
  cursor: string;
  whole: boolean;
  days: WeatherRow[];
}

export interface WeatherKept {
  state: WeatherState;
  days: readonly WeatherRow[];
}

const KEPT_DAYS = 400;
const DAY_MS = 86_400_000;

const FRESH: WeatherState = {
  key: "weather",
  state: "fresh",
  cursor: "",
  tag: "",
  wish: "",
  failures: 0,
  nextAt: 0,
};

export async function readWeather(db: BookDb): Promise<WeatherState> {
  return ((await db.meta.get("weather")) as WeatherState | undefined) ?? FRESH;
}

export async function noteWeather(db: BookDb, part: Partial<WeatherState>): Promise<void> {
  await db.transaction("rw", db.meta, async () => {
    await db.meta.put({ ...(await readWeather(db)), ...part });
  });
}

/** Days, their age and the cursor behind them in one transaction; what is older than 400 days goes. */
export async function takeWeather(
  db: BookDb,
  answer: WeatherAnswer,
  part: Partial<WeatherState>,
  now: number,
): Promise<void> {
  const oldest = new Date(now - KEPT_DAYS * DAY_MS).toISOString().slice(0, 10);
  await db.transaction("rw", db.meta, db.weather, async () => {
    const { fetchedAt: _age, trouble: _trouble, ...kept } = await readWeather(db);
    if (answer.state === "known") {
      if (answer.whole) await db.weather.clear();
      await db.weather.bulkPut(answer.days);
      await db.weather.where("date").below(oldest).delete();
    }
    await db.meta.put({
      ...kept,
      ...part,
      state: answer.state,
      // Where the server has none, the cursor stays with the days that are here.
      cursor: answer.state === "known" ? answer.cursor : kept.cursor,
      ...(answer.fetched_at ? { fetchedAt: answer.fetched_at } : {}),
      ...(answer.trouble ? { trouble: answer.trouble } : {}),
    });
  });
}

/** Read the first time somebody asks, and followed from then on. */
export function weatherOf(
  db: BookDb,
  closers: (() => void)[],
): () => ReadonlySignal<WeatherKept | undefined> {
  let following: ReturnType<typeof follow<WeatherKept | undefined>> | undefined;
  return () => {
    if (!following) {
      following = follow<WeatherKept | undefined>(
        () =>
          db.transaction("r", db.meta, db.weather, async () => ({
            state: await readWeather(db),
            days: await db.weather.toArray(),
          })),
        undefined,
      );
      closers.push(following.close);
    }
    return following.value;
  };
}
