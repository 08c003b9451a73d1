import { cleanup, fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { Args, Value } from "../../../platform/engine";
import type { Said } from "../../../platform/engine/fake-engine";
import { realEngine } from "../../../platform/engine/real-engine";
import { fakeBook, fakeEngine, groups } from "../../../records/fake-book";
import { createKeepOff } from "../../../records/keep-off";
import type { Look } from "../../../records/look";
import { rest, restful, type Wait, waitBy } from "../../../records/rest";
import { clearToasts, Toasts } from "../../../ui/parts";
import "../../../app/features";
import { createNames } from "../../../records/log/names";
import { createLog } from "../../log/model/log";
import { createClaims } from "../model/claims";
import { createToday } from "../model/today";

const made = vi.hoisted(() => ({ models: {} as Record<string, any> }));
vi.mock("../model", () => ({
  get claims() {
    return made.models["claims"];
  },
  get today() {
    return made.models["today"];
  },
  followLook: () => made.models["followLook"] && (made.models["followLook"] as () => () => void)(),
}));
vi.mock("../../../records/log/named", async () => {
  const { sayingNames } = await import("../../../records/log/names");
  return sayingNames((id) => made.models["names"].nameOf(id));
});
vi.mock("../../log/model", () => ({
  get log() {
    return made.models["log"];
  },
}));
vi.mock("../../../records/live", () => ({
  get keepOff() {
    return made.models["keepOff"];
  },
  get store() {
    return made.models["store"];
  },
  look: { kept: { value: undefined } },
  engine: undefined,
  day: () => "2026-05-14",
  get forming() {
    return made.models["forming"];
  },
}));

const { default: Today } = await import("./index");

const DAY = "2026-05-14";
const NOW = `${DAY}T18:05:00-04:00`;

const NAMES = { z: "Street verge", k: "Kitchen lawn", l: "Long side" };
type ZoneId = keyof typeof NAMES;

const DUE = { due_on: null, overdue_days: 0, days_since: null, assumed: true, state: "never" } as const;
const MOWED = {
  due_on: "2026-05-17",
  overdue_days: 0,
  days_since: 0,
  assumed: true,
  state: "ok",
} as const;
const NOTHING = { last_feed: null, n_year_kg_m2: 0, passes: 0, n_unknown_feeds: 0 };

/** As `record.totals` has it: the last mow of each zone that has one. */
function totals({ entries }: Args<"record.totals">): Said<"record.totals"> {
  const zones: Value<"record.totals">["zones"] = {};
  for (const { kind, zone_ids } of entries)
    if (kind === "mow") for (const id of zone_ids ?? []) zones[id] = { ...NOTHING, last_mow: DAY };
  return { zones };
}

function due({ zones }: Args<"record.due">): Value<"record.due"> {
  return { zones: Object.fromEntries(zones.map(({ id, last_mow }) => [id, last_mow ? MOWED : DUE])) };
}

const UNTIL = {
  until: "2026-05-15T16:30:00Z",
  put_down_at: NOW,
  hours: 24,
  assumed: false,
  until_watered: true,
  product_id: "slow",
  entry_id: "w",
};

function open(
  zones: boolean | ZoneId[],
  kept: Value<"record.keep_off">["zones"] = {},
  look?: Look,
  spoken?: Promise<void>,
) {
  const book = fakeBook();
  const store = Object.assign(restful(book), { saved: book.saved, put: book.put });
  const said = fakeEngine({
    "record.totals": totals,
    "record.due": due,
    "record.claims": (args) => realEngine("record.claims", args).value as Value<"record.claims">,
    "record.keep_off": { zones: kept, over_in_s: null },
  });
  const call: typeof said.call = async (name, args) =>
    spoken?.then(() => said.call(name, args)) ?? said.call(name, args);
  const engine = { call: call as typeof said.call };
  made.models["keepOff"] = createKeepOff({ store, engine, now: () => NOW });
  for (const id of zones === true ? (["z"] as ZoneId[]) : zones || [])
    store.put({ t: "zone", id, groups: groups({ name: { name: NAMES[id] } }) });
  made.models["today"] = createToday({
    store,
    engine,
    day: () => "2026-05-14",
    now: () => NOW,
    memberId: () => "me",
    kept: () => look,
  });
  const mine = { day: () => DAY, now: () => NOW, memberId: () => "me" };
  made.models["claims"] = createClaims({ store, engine, ...mine });
  made.models["store"] = store;
  made.models["forming"] = { store, system: () => "us", now: () => NOW, memberId: () => "me" };
  made.models["names"] = createNames(store);
  made.models["log"] = createLog({ store, now: () => NOW, memberId: () => "me" });
  render(
    <>
      <Today />
      <Toasts />
    </>,
  );
  return store;
}

beforeEach(() => window.history.replaceState(null, "", "/"));
const atOnce: Wait = (over) => {
  over();
  return () => {};
};

afterEach(() => {
  cleanup();
  clearToasts();
  waitBy(atOnce);
  rest.begin();
});

/** Time that passes only when told to. */
function clock(): (ms: number) => void {
  let at = 0;
  let waits: { when: number; over: () => void }[] = [];
  waitBy((over, ms) => {
    const one = { when: at + ms, over };
    waits.push(one);
    return () => {
      waits = waits.filter((other) => other !== one);
    };
  });
  return (ms) => {
    at += ms;
    const over = waits.filter(({ when }) => when <= at);
    waits = waits.filter(({ when }) => when > at);
    for (const one of over) one.over();
  };
}

const rows = () =>
  within(screen.getByRole("region", { name: "Mowing" }))
    .getAllByRole("button", { name: /^Mowed(?! the)/ })
    .map((button) => button.getAttribute("aria-label")?.split(": ")[1]);

/** Whatever lies in the place of that button by now is tapped, as a thumb does. */
const place = (at: number) =>
  within(screen.getByRole("region", { name: "Mowing" })).getAllByRole("button", { name: /^Mowed(?! the)/ })[
    at
  ] as HTMLElement;

const LOOK: Look = {
  at: "2026-05-13T07:30:00-04:00",
  days: {
    [DAY]: [
      {
        id: "z",
        name: "Street verge",
        lastMow: null,
        due_on: "2026-05-11",
        overdue_days: 3,
        state: "overdue",
      },
      { id: "k", name: "Kitchen lawn", lastMow: null, due_on: null, overdue_days: 0, state: "never" },
    ],
  },
  keptOff: {},
  names: {},
  has: { zones: true, products: true, spreaders: true },
  taken: [],
};

describe("what was kept of the last look", () => {
  it("is there at once, says of when it is, and takes a mow", async () => {
    clock();
    const store = open(["z", "k"], {}, LOOK, new Promise(() => {}));
    expect(rows()).toEqual(["Street verge", "Kitchen lawn"]);
    expect(screen.getByText(/^Overdue/)).toBeTruthy();
    expect(screen.getByText("as of Wed 13 May, 7:30 am")).toBeTruthy();
    fireEvent.click(place(0));
    await screen.findByText("Street verge: mow logged.");
    expect(store.saved.flat().map(({ body }) => (body as any).zone_ids)).toEqual([["z"]]);
    expect(rows()).toEqual(["Street verge", "Kitchen lawn"]);
  });

  it("is made right in place by the engine, and sorted only when no thumb can be on its way", async () => {
    const pass = clock();
    let speak = () => {};
    open(["z", "k"], {}, LOOK, new Promise((done) => (speak = () => done())));
    pass(9000);
    speak();
    await waitFor(() => expect(screen.queryByText(/^as of/)).toBeNull());
    // From before it was drawn anew: no tap meets what has just changed.
    expect(rest.resting.value).toBe(true);
    expect(screen.queryByText(/^Overdue/)).toBeNull();
    expect(rows()).toEqual(["Street verge", "Kitchen lawn"]);
    pass(1900);
    expect(rows()).toEqual(["Street verge", "Kitchen lawn"]);
    pass(200);
    await waitFor(() => expect(rows()).toEqual(["Kitchen lawn", "Street verge"]));
  });

  it("of another day is not shown", async () => {
    open(["z", "k"], {}, { ...LOOK, days: { "2026-05-13": LOOK.days[DAY] ?? [] } }, new Promise(() => {}));
    expect(screen.getByText("Checking what is due …")).toBeTruthy();
  });
});

describe("a thumb that shakes", () => {
  it("notes one zone by a double tap on Mowed, whatever the list does under it", async () => {
    const pass = clock();
    const store = open(["z", "k", "l"]);
    await waitFor(() => expect(rows()).toEqual(["Kitchen lawn", "Long side", "Street verge"]));
    fireEvent.click(place(0));
    await screen.findByText("Kitchen lawn: mow logged.");
    pass(300);
    fireEvent.click(place(0));
    expect(store.saved).toHaveLength(1);
    pass(1000);
    fireEvent.click(place(1));
    await screen.findByText("Long side: mow logged.");
    expect(store.saved.flat().map(({ body }) => (body as any).zone_ids)).toEqual([["k"], ["l"]]);
  });

  it("leaves the list as it is for two seconds after a mow, then sorts it", async () => {
    const pass = clock();
    open(["z", "k", "l"]);
    await waitFor(() => expect(rows()).toHaveLength(3));
    fireEvent.click(place(0));
    await screen.findByText(/^mowed /);
    expect(rows()).toEqual(["Kitchen lawn", "Long side", "Street verge"]);
    pass(2000);
    await waitFor(() => expect(rows()).toEqual(["Long side", "Street verge", "Kitchen lawn"]));
  });

  it("writes one mow by a double tap on the whole yard", async () => {
    const pass = clock();
    const store = open(["z", "k"]);
    fireEvent.click(await screen.findByRole("button", { name: "Mowed the whole yard" }));
    await screen.findByText("Whole yard: mow logged.");
    pass(400);
    fireEvent.click(screen.getByRole("button", { name: /^Mowed the whole yard/ }));
    expect(store.saved).toHaveLength(1);
  });

  it("does not undo a mow by the second tap where the offer comes to lie under the thumb", async () => {
    const pass = clock();
    const store = open(true);
    fireEvent.click(await screen.findByRole("button", { name: "Mowed: Street verge" }));
    const undo = await within(screen.getByRole("status")).findByRole("button", { name: "Undo" });
    pass(300);
    fireEvent.click(undo);
    expect(store.rows("entry").value).toHaveLength(1);
    pass(1000);
    fireEvent.click(undo);
    await waitFor(() => expect(store.rows("entry").value).toEqual([]));
  });

  it("takes a job once, and keeps the others' lines where they are while one leaves the list", async () => {
    const pass = clock();
    const store = open(true);
    for (const id of ["one", "two"])
      store.put({
        t: "claim",
        id,
        by: "me",
        groups: groups({ claim: { job: "other", day: DAY, note: id } }),
      });
    const list = () => within(screen.getByRole("region", { name: "Jobs taken" }));
    const done = () => list().getAllByRole("button", { name: /^Done/ }) as HTMLButtonElement[];
    await waitFor(() => expect(done()).toHaveLength(2));
    fireEvent.click(done()[0] as HTMLElement);
    await waitFor(() => expect(store.saved).toHaveLength(1));
    pass(300);
    fireEvent.click(done()[0] as HTMLElement);
    pass(1000);
    // Its line still keeps its place, and takes no tap.
    expect(done()).toHaveLength(2);
    fireEvent.click(done()[0] as HTMLElement);
    expect(store.saved).toHaveLength(1);
    pass(1000);
    await waitFor(() => expect(done()).toHaveLength(1));
  });
});

describe("zones to keep off", () => {
  it("are told on Today with the reason, and beside each of them", async () => {
    open(["z", "k"], { k: UNTIL });
    const warning = await screen.findByRole("region", { name: "Keep off" });
    await waitFor(() => expect(warning.textContent).toContain("Kitchen lawn. "));
    expect(warning.textContent).toMatch(/^Keep off until Fri 15 May, \d{1,2}:30 [ap]m/);
    expect(warning.textContent).toContain("The label says 24 hours. Stay off longer if it is not watered in");
    expect(warning.textContent).not.toContain("Street verge");
    expect(screen.getAllByText(/^Keep off until/)).toHaveLength(2);
  });

  it("are not mowed by one tap: the person is warned, and nothing is noted unless they say so", async () => {
    const store = open(["z", "k"], { k: UNTIL });
    await screen.findAllByText(/^Keep off until/);
    fireEvent.click(await screen.findByRole("button", { name: "Mowed: Kitchen lawn" }));
    fireEvent.click(await screen.findByRole("button", { name: "Wait" }));
    fireEvent.click(await screen.findByRole("button", { name: "Mowed the whole yard" }));
    const sheet = await screen.findByRole("dialog", { name: "Keep off, and do not mow yet" });
    expect(store.saved).toEqual([]);
    fireEvent.click(within(sheet).getByRole("button", { name: "Log the mow anyway" }));
    await screen.findByText("Whole yard: mow logged.");
    expect(store.saved).toHaveLength(1);
  });

  it.each([
    ["is the next thing to do while no zone is kept off", {}, true],
    ["is not while one of them is", { k: UNTIL }, false],
  ])("the whole yard's mow %s", async (_, kept, next) => {
    open(["z", "k"], kept);
    const whole = await screen.findByRole("button", { name: "Mowed the whole yard" });
    await waitFor(() => expect(whole.classList.contains("button--signal")).toBe(next));
    if (!next) await screen.findAllByText(/^Keep off until/);
    expect(whole.classList.contains("button--signal")).toBe(next);
  });

  it("do not warn of the zones that are free", async () => {
    const store = open(["z", "k"], { k: UNTIL });
    await screen.findAllByText(/^Keep off until/);
    fireEvent.click(await screen.findByRole("button", { name: "Mowed: Street verge" }));
    await screen.findByText("Street verge: mow logged.");
    expect(store.saved).toHaveLength(1);
  });
});

describe("Today as a person meets it", () => {
  it("teaches the first step of a blank book", () => {
    open(false);
    expect(screen.getByRole("heading", { name: "Set up in 3 steps" })).toBeTruthy();
    expect(screen.getByRole("link", { name: "Measure a zone" }).getAttribute("href")).toBe("/ground/new");
  });

  it("asks for the next thing once there is ground", () => {
    open(true);
    expect(screen.getByRole("link", { name: "Add a product" })).toBeTruthy();
  });

  it("notes a zone's mow on one tap and takes it back on the next", async () => {
    const store = open(true);
    fireEvent.click(await screen.findByRole("button", { name: "Mowed: Street verge" }));
    fireEvent.click(await within(screen.getByRole("status")).findByRole("button", { name: "Undo" }));
    await waitFor(() => expect(store.rows("entry").value).toEqual([]));
    expect(store.saved[0]?.[0]?.body).toMatchObject({ kind: "mow", zone_ids: ["z"] });
  });

  it("shows an entry that waits to be sent", async () => {
    open(true);
    fireEvent.click(await screen.findByRole("button", { name: "Mowed the whole yard" }));
    const waiting = await screen.findByRole("region", { name: "Waiting to be sent" });
    expect(within(waiting).getByRole("link", { name: /Mow/ }).textContent).toContain("Street verge");
  });

  it("says that nothing was noted when the phone could not store it", async () => {
    const store = open(true);
    store.save = () => Promise.reject(new Error("quota"));
    fireEvent.click(await screen.findByRole("button", { name: "Mowed the whole yard" }));
    expect(await screen.findByText(/Not saved. Free some space on this phone and try again./)).toBeTruthy();
  });

  it("asks for a zone and a time before it saves a mow with details", async () => {
    const store = open(true);
    fireEvent.click(await screen.findByRole("button", { name: "Log a mow with details" }));
    const sheet = await screen.findByRole("dialog", { name: "Log a mow" });
    fireEvent.click(await within(sheet).findByLabelText("Street verge"));
    fireEvent.input(within(sheet).getByLabelText("Height before"), { target: { value: "tall" } });
    fireEvent.submit(sheet.querySelector("form") as HTMLFormElement);
    await waitFor(() => expect(sheet.textContent).toContain("Choose at least one zone."));
    expect(sheet.textContent).toContain("not a number");
    expect(store.saved).toEqual([]);
  });
});
