// @vitest-environment node
import { afterEach, describe, expect, it, vi } from "vitest";
import { type Book, openBook } from "../store/book";
import { newId } from "../store/core/uuid7";
import { readWeather } from "../store/weather";
import { createWeather, wishOf } from "./weather";
import type { World } from "./world";

const HOUR_MS = 3_600_000;
const START = Date.parse("2026-05-10T12:00:00Z");
const HOUSEHOLD = newId();
let book: Book;
let now = START;
let later: { at: number; work: () => unknown }[] = [];
let asked: { address: string; tag: string | undefined }[] = [];

const world: World = {
  now: () => now,
  chance: () => 0.5,
  after(ms, work) {
    const entry = { at: now + ms, work };
    later.push(entry);
    return () => {
      later = later.filter((one) => one !== entry);
    };
  },
  onWake: () => () => undefined,
  visible: () => true,
  lead: async () => () => undefined,
};

const place = { latitude_deg: 41.6, longitude_deg: -70.1 };
const day = (date: string, max_c: number) => ({ date, min_c: 4, max_c });
const known = (more: object = {}) => ({
  state: "known",
  place,
  fetched_at: "2026-05-10T11:00:00Z",
  trouble: "",
  cursor: "s.1",
  whole: true,
  days: [day("2026-05-10", 14), day("2026-05-11", 15)],
  ...more,
});

function said(body: object, tag = 'W/"1"') {
  return new Response(JSON.stringify(body), { headers: { "Content-Type": "application/json", ETag: tag } });
}

/** The phone of a household with a place and the forecast on, and what the server answers, one after another. */
async function phone(...answers: (Response | Error)[]) {
  const wire = {
    timeoutMs: 1000,
    fetch: (async (address: string, init?: RequestInit) => {
      asked.push({ address, tag: new Headers(init?.headers).get("If-None-Match") ?? undefined });
      const answer = answers.shift();
      if (!answer || answer instanceof Error) throw answer ?? new Error("no signal");
      return answer;
    }) as typeof fetch,
  };
  now = START;
  later = [];
  asked = [];
  book = openBook(newId());
  await book.save([{ t: "household", id: HOUSEHOLD, set: { place, forecast: { forecast: true } } }]);
  const turns = createWeather({ book, household: HOUSEHOLD, wire, world });
  await turns.start();
  return turns;
}

const days = () => book.db.weather.toArray();

afterEach(() => book.close());

describe("weather on the phone", () => {
  it("is kept with its age and its cursor, and asked for again three hours on, with the validator", async () => {
    const turns = await phone(said(known()), new Response(null, { status: 304 }));
    expect(await days()).toHaveLength(2);
    expect(await readWeather(book.db)).toMatchObject({
      state: "known",
      fetchedAt: "2026-05-10T11:00:00Z",
      cursor: "s.1",
    });
    await turns.kick();
    expect(asked).toHaveLength(1);
    now += 3 * HOUR_MS + 1;
    await turns.kick();
    expect(asked.at(-1)).toEqual({
      address: `/api/v1/households/${HOUSEHOLD}/weather?since=s.1`,
      tag: 'W/"1"',
    });
    expect(await days()).toHaveLength(2);
    turns.stop();
  });

  it("takes changed days alone, and lets go of what is older than 400 days", async () => {
    const old = day("2025-01-01", 3);
    const turns = await phone(
      said(known({ days: [old, day("2026-05-10", 14), day("2026-05-11", 15)] })),
      said(known({ whole: false, cursor: "s.2", days: [day("2026-05-11", 19)] })),
    );
    now += 4 * HOUR_MS;
    await turns.kick();
    expect((await days()).map(({ date, max_c }) => [date, max_c])).toEqual([
      ["2026-05-10", 14],
      ["2026-05-11", 19],
    ]);
    turns.stop();
  });

  it("keeps what it has, and its age, where the server or the service has trouble", async () => {
    const turns = await phone(
      said(known()),
      new Error("no signal"),
      said(known({ whole: false, days: [], trouble: "slow" })),
    );
    now += 4 * HOUR_MS;
    await turns.kick();
    expect(await days()).toHaveLength(2);
    expect((await readWeather(book.db)).failures).toBe(1);
    await turns.kick();
    expect(await readWeather(book.db)).toMatchObject({
      trouble: "slow",
      failures: 0,
      fetchedAt: "2026-05-10T11:00:00Z",
    });
    turns.stop();
  });

  it("asks soon again where the server still knows another place", async () => {
    const turns = await phone(said(known({ place: { latitude_deg: 10, longitude_deg: 10 } })), said(known()));
    now += 60_001;
    await turns.kick();
    expect(asked).toHaveLength(2);
    turns.stop();
  });

  it("asks nothing without a place or a keeper’s word", async () => {
    expect(wishOf(undefined)).toBe("");
    const turns = await phone();
    asked = [];
    await book.save([{ t: "household", id: HOUSEHOLD, set: { forecast: { forecast: false } } }]);
    await turns.kick();
    expect(asked).toEqual([]);
    turns.stop();
  });

  it("asks at once when a keeper turns it on", async () => {
    const turns = await phone(
      said({ ...known(), state: "not_on", days: [], fetched_at: null, cursor: "" }),
      said(known()),
    );
    await book.save([{ t: "household", id: HOUSEHOLD, set: { place: { ...place, latitude_deg: 41.7 } } }]);
    await vi.waitFor(() => expect(later.some(({ at }) => at <= now + 2_000)).toBe(true));
    turns.stop();
  });
});
