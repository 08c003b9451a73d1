// @vitest-environment happy-dom
import { effect, signal } from "@preact/signals";
import { beforeEach, describe, expect, it } from "vitest";
import type { Args, Step, Value } from "../../../platform/engine";
import { bookName } from "../../../platform/store";
import { openBook } from "../../../platform/store/book";
import { fakeBook, fakeEngine, groups, settled } from "../../../records/fake-book";
import { createKeepOff } from "../../../records/keep-off";
import { createLook, type Evening } from "../../../records/look";
import type { ForecastModel } from "../../mowing";
import { createClaims } from "./claims";
import { createLookKeeper } from "./look-keeper";
import { createToday } from "./today";

const DAY = "2026-05-14";
const NOW = `${DAY}T18:05:00Z`;
const BOOK = bookName("sam", "alder");

const MOWED = { last_mow: "2026-05-11", last_feed: null, n_year_kg_m2: 0, passes: 0, n_unknown_feeds: 0 };

/** What the engine says on each day, as if one zone were mowed every five days. */
function dueOn({ zones, today }: Args<"record.due">): Value<"record.due"> {
  const state = today < "2026-05-16" ? "ok" : today === "2026-05-16" ? "due" : "overdue";
  const said = { due_on: "2026-05-16", overdue_days: 0, days_since: 3, assumed: false, state } as const;
  return { zones: Object.fromEntries(zones.map(({ id }) => [id, said])) };
}

const KEPT_OFF = {
  until: "2026-05-15T16:30:00Z",
  put_down_at: NOW,
  hours: 24,
  assumed: false,
  until_watered: true,
  product_id: "slow",
  entry_id: "w",
};

/** One opening of the app. Before `read` its tables are not read yet, as after the first paint. */
function opening({ book = BOOK, day = DAY, now = NOW, read = true, foretold = false } = {}) {
  const isRead = signal(false);
  const shelf = fakeBook();
  shelf.put({ t: "zone", id: "z", groups: groups({ name: { name: "Street verge" } }) });
  shelf.put({ t: "product", id: "slow", groups: groups({ name: { name: "Slow feed" } }) });
  const store = { ...shelf, loaded: () => isRead, rows: (t: string) => rowsOf(t) };
  const none = signal([]);
  function rowsOf(t: string) {
    const rows = shelf.rows(t);
    return isRead.value ? rows : (none as typeof rows);
  }
  const engine = fakeEngine({
    "record.totals": { zones: { z: MOWED } },
    "record.due": dueOn,
    "record.keep_off": { zones: { z: KEPT_OFF }, over_in_s: 80_000 },
  });
  isRead.value = read;
  const look = createLook({ book: () => book, now: () => now });
  const keepOff = createKeepOff({ store, engine, now: () => now, kept: look.keptOff });
  const mine = { day: () => day, now: () => now, memberId: () => "me" };
  const ahead = foretold ? { openForecast: async () => forecast() } : {};
  const today = createToday({ store, engine, ...mine, kept: () => look.kept.value, ...ahead });
  const claims = createClaims({ store, engine, ...mine });
  const nameOf = (id: string | undefined) =>
    id && (shelf.rows("zone").value.some((row) => row.id === id) ? "Street verge" : "Slow feed");
  const follow = createLookKeeper({ look, today, claims, keepOff, engine, ...mine, nameOf });
  return { store, engine, look, keepOff, today, follow };
}

const ZONE = {
  known: "forecast",
  mow_by: "2026-05-12",
  earliest: "2026-05-11",
  latest: "2026-05-15",
  state: "good",
  growing_again: null,
  looks: 2,
  due: true,
  why: "overgrown",
  taken_share: 0.38,
  cut_to_mm: 76,
  at: 0,
} as const;

const eveningOf = (night: string): Evening => ({
  weather: true,
  night,
  isTonight: true,
  skipped: [],
  hasNights: true,
  zones: { z: ZONE },
  nights: [],
});

const step = (what: string, of?: string): Step => ({
  what,
  formula: "as told",
  numbers: {},
  result: 1,
  unit: "day",
  source: "computed",
  ...(of ? { of } : {}),
});

/** A forecast that has spoken, of a zone of the book and of one that has gone. */
function forecast(): ForecastModel {
  const said = <V>(value: V, working: Step[]) =>
    Object.assign(signal({ value, working, engine: "0" }), { busy: signal(false) }) as never;
  return {
    worked: said({}, [step("Growth", "z"), step("Growth", "gone")]),
    evening: said(eveningOf(DAY), [step("Night"), step("Takes", "z"), step("Takes", "gone")]),
    eveningOf: async (_, on) => ({ value: eveningOf(on), working: [], engine: "0" }),
  };
}

/** Opens the app, waits until Today is kept, and leaves. */
async function openedOnce(how = {}): Promise<void> {
  const { today, keepOff, follow } = opening(how);
  await today.lookAhead();
  const stop = effect(() => void [today.dueZones.value, keepOff.zones.value]);
  const end = follow();
  for (let turn = 0; turn < 30; turn++) await settled();
  end();
  stop();
}

const shown = ({ today }: ReturnType<typeof opening>) => today.dueZones.value.map(({ state }) => state);

beforeEach(() => localStorage.clear());

describe("Today as it was kept", () => {
  it("is there before a table is read or the engine has spoken, with what to keep off", async () => {
    await openedOnce();
    const next = opening({ read: false });
    expect(next.today.dueZones.value).toEqual([
      {
        id: "z",
        name: "Street verge",
        lastMow: "2026-05-11",
        due_on: "2026-05-16",
        overdue_days: 0,
        days_since: 3,
        assumed: false,
        state: "ok",
      },
    ]);
    expect(next.today.look.value?.at).toBe(NOW);
    expect(next.today.has.value).toEqual({ zones: true, products: true, spreaders: false });
    expect(Object.keys(next.keepOff.zones.value)).toEqual(["z"]);
    expect(next.engine.asked).toEqual([]);
  });

  it("holds the evening and each zone's forecast, and those of the days to come", async () => {
    await openedOnce({ foretold: true });
    const next = opening({ read: false, foretold: true });
    expect(next.today.evening.value).toEqual(eveningOf(DAY));
    expect(next.today.dueZones.value[0]).toMatchObject({ state: "due", due_on: "2026-05-12", mow: ZONE });
    const later = opening({ read: false, foretold: true, day: "2026-05-16" });
    expect(later.today.evening.value?.night).toBe("2026-05-16");
  });

  it("is kept for today before the days to come are worked out", async () => {
    const { today, follow } = opening({ foretold: true });
    today.eveningOn = () => new Promise(() => {});
    await today.lookAhead();
    const stop = effect(() => void today.dueZones.value);
    const end = follow();
    for (let turn = 0; turn < 30; turn++) await settled();
    end();
    stop();
    const next = opening({ read: false, foretold: true });
    expect(next.today.dueZones.value[0]).toMatchObject({ state: "due", mow: ZONE });
  });

  it("shows the working of the forecast, of the zones it is about", async () => {
    const { today } = opening({ foretold: true });
    await today.lookAhead();
    const stop = effect(() => void [today.dueZones.value, today.why.value]);
    for (let turn = 0; turn < 30; turn++) await settled();
    expect(today.why.value.map(({ what, of }) => [what, of])).toEqual([
      ["Night", undefined],
      ["Takes", "z"],
      ["Growth", "z"],
    ]);
    stop();
  });

  it("was kept before there were forecasts: its list is shown, and no evening", async () => {
    await openedOnce();
    const next = opening({ read: false, foretold: true });
    expect(shown(next)).toEqual(["ok"]);
    expect(next.today.evening.value).toBeUndefined();
  });

  it("has the days to come as the engine says them, and no day after those", async () => {
    await openedOnce();
    expect(shown(opening({ read: false, day: "2026-05-16" }))).toEqual(["due"]);
    expect(shown(opening({ read: false, day: "2026-05-17" }))).toEqual(["overdue"]);
    expect(shown(opening({ read: false, day: "2026-05-22" }))).toEqual([]);
    expect(shown(opening({ read: false, day: "2026-05-13" }))).toEqual([]);
  });

  it("keeps nobody off for longer than was said", async () => {
    await openedOnce();
    const later = opening({ read: false, now: "2026-05-15T16:31:00Z" });
    expect(later.keepOff.zones.value).toEqual({});
  });

  it("is shown to no other household and no other person", async () => {
    await openedOnce();
    expect(shown(opening({ read: false, book: bookName("sam", "other") }))).toEqual([]);
    expect(shown(opening({ read: false, book: bookName("kit", "alder") }))).toEqual([]);
  });

  it("is forgotten with the first write to the book, a person's or one that came", async () => {
    await openedOnce();
    const book = openBook("evenfall:sam:alder");
    await book.save([{ t: "entry", id: "e", body: { kind: "mow", occurred_at: NOW, zone_ids: ["z"] } }]);
    expect(shown(opening({ read: false }))).toEqual([]);
    await openedOnce();
    expect(shown(opening({ read: false }))).toEqual(["ok"]);
    book.show([{ key: "zone:z", t: "zone", id: "z", groups: {}, seq: 2, pending: false, rev: 9 }]);
    expect(shown(opening({ read: false }))).toEqual([]);
    book.close();
  });

  it("is not kept of what was worked out before a write that came meanwhile", async () => {
    const { today, keepOff, follow } = opening();
    const stop = effect(() => void [today.dueZones.value, keepOff.zones.value]);
    await settled();
    await settled();
    const end = follow();
    const book = openBook("evenfall:sam:alder");
    end();
    book.show([{ key: "zone:z", t: "zone", id: "z", groups: {}, seq: 2, pending: false, rev: 9 }]);
    for (let turn = 0; turn < 30; turn++) await settled();
    expect(localStorage.getItem("evenfall.look")).toBeNull();
    stop();
    book.close();
  });

  it("gives way to the engine as soon as it has spoken", async () => {
    await openedOnce();
    const next = opening({ day: "2026-05-17" });
    const stop = effect(() => void next.today.dueZones.value);
    expect(next.today.look.value).toBeDefined();
    for (let turn = 0; turn < 5; turn++) await settled();
    expect(next.today.look.value).toBeUndefined();
    expect(shown(next)).toEqual(["overdue"]);
    stop();
  });
});

describe("a book that is not read yet", () => {
  it("asks the engine nothing, so that no zone is said to be never mowed or free", async () => {
    const { engine, today, keepOff } = opening({ read: false });
    const stop = effect(() => void [today.dueZones.value, keepOff.zones.value]);
    await settled();
    expect(engine.asked).toEqual([]);
    stop();
  });
});
