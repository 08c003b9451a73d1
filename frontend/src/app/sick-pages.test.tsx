/** One sick record on every page that reads it: the page is there, the record is named, the others count. */
import { cleanup, fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import type { ComponentType } from "preact";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { FakeBook } from "../records/fake-book";
import { type KindTable, type Rules, KINDS as TABLE } from "../records/kinds.gen";

const made = vi.hoisted(() => ({ book: undefined as unknown }));
const asked = vi.hoisted(() => [] as { name: string; args: any }[]);
vi.mock("../platform/store", async (original) => {
  const real = await original<typeof import("../platform/store")>();
  const { fakeBook } = await import("../records/fake-book");
  made.book = fakeBook();
  return { ...real, store: made.book };
});
vi.mock("../platform/engine", () => ({
  call: async (name: string, args: object) => {
    asked.push({ name, args });
    return { error: { code: "test", message: "No engine in this test." } };
  },
  useEngine: () => ({ answer: undefined, busy: false }),
}));
vi.mock("../platform/session/session", async (original) => {
  const { signal } = await import("@preact/signals");
  const household = { id: "h", name: "Alder Bend" };
  const who = {
    person: { id: "p", name: "Rowan" },
    household,
    member_id: "m",
    role: "keeper",
    households: [household],
  };
  return {
    ...(await original<typeof import("../platform/session/session")>()),
    session: signal(who),
    unitsKnown: signal(true),
    whenUnitsKnown: async () => undefined,
  };
});

const { groups } = await import("../records/fake-book");
const { PageNotices } = await import("../ui/frame/page");
await import("./features");
const { LeftOutHere } = await import("./left-out");
const places: Record<string, ComponentType> = {
  "": (await import("../features/today/screens/index")).default,
  ground: (await import("../features/ground/screens/index")).default,
  shed: (await import("../features/shed/screens/index")).default,
  season: (await import("../features/season/screens/index")).default,
  log: (await import("../features/log/screens/index")).default,
  household: (await import("../features/household/screens/index")).default,
  spread: (await import("../features/spreading/screens/index")).default,
};
const book = made.book as FakeBook;

const SICK = "00000000-0000-7000-8000-00000000000a";
const SOUND = "00000000-0000-7000-8000-00000000000b";
const AT = "2026-05-10T10:00:00Z";
const WALKING = { swath_m: 2, speed_m_s: 1.3 };

function show(path: string): void {
  history.replaceState(null, "", path);
  const Place = places[path.split("/")[1] ?? ""] as ComponentType;
  render(
    <PageNotices.Provider value={LeftOutHere}>
      <Place />
    </PageNotices.Provider>,
  );
}

beforeEach(() => {
  book.put({
    t: "zone",
    id: SOUND,
    groups: groups({ name: { name: "Back" }, ground: { area_m2: 90, method: "typed" } }),
  });
  book.put({
    t: "product",
    id: SOUND,
    groups: groups({ name: { name: "Slow feed", sort: "fertilizer" }, label: { net_kg: 9 } }),
  });
  book.put({
    t: "spreader",
    id: SOUND,
    groups: groups({
      name: { name: "Rotary", sort: "rotary" },
      dial: { lowest: 1, highest: 9, step: 1 },
      walking: WALKING,
    }),
  });
});

afterEach(async () => {
  cleanup();
  for (const t of [
    "zone",
    "product",
    "spreader",
    "mower",
    "claim",
    "settlement",
    "photo",
    "member",
    "household",
    "entry",
  ])
    for (const { id } of book.rows(t).value)
      book.put({ t, id, groups: groups({ deleted: { deleted: true } }) });
  await Promise.resolve();
});

const notice = async () => {
  const title = await screen.findByText("Not counted yet");
  return title.closest(".notice") as HTMLElement;
};

const RECORDS = {
  zone: { name: { name: "Front" }, ground: { area_m2: 50, method: "typed" }, cut: { mow_every_days: 900 } },
  product: {
    name: { name: "Old bag", sort: "fertilizer" },
    label: { net_kg: 10 },
    analysis: { n_percent: 700 },
  },
  spreader: {
    name: { name: "Hand-turned", sort: "rotary" },
    dial: { lowest: "low", highest: 9, step: 1 },
    walking: WALKING,
  },
  mower: { name: { name: "Hand-pushed" }, deck: { notches: [{ label: "1", measured_mm: "low" }] } },
  claim: { claim: { job: "mow", day: "someday" } },
  settlement: { settled: { clash: 5 } },
  photo: { photo: { of: "zone", of_id: SOUND, sha256: 7, width_px: 1, height_px: 1, size_bytes: 1 } },
} as const;

describe("one sick record is named, with the way to put it right,", () => {
  it.each([
    ["zone", "/ground", /Zone Front: .* can’t be used/, `/ground/${SICK}/edit`],
    ["zone", "/season", /Zone Front/, `/ground/${SICK}/edit`],
    ["zone", `/ground/${SICK}`, /Zone Front/, `/ground/${SICK}/edit`],
    ["zone", "/spread", /Zone Front/, `/ground/${SICK}/edit`],
    ["product", "/shed", /Product Old bag: .* can’t be used/, `/shed/product/${SICK}`],
    ["product", "/spread", /Product Old bag/, `/shed/product/${SICK}`],
    ["spreader", "/shed", /Spreader Hand-turned: .* can’t be used/, `/shed/spreader/${SICK}`],
    ["spreader", "/", /Spreader Hand-turned/, `/shed/spreader/${SICK}`],
    ["mower", "/shed", /Mower Hand-pushed: .* can’t be used/, `/shed/mower/${SICK}/edit`],
    ["mower", "/", /Mower Hand-pushed/, `/shed/mower/${SICK}/edit`],
  ] as const)("a %s on %s", async (t, path, says, href) => {
    book.put({ t, id: SICK, groups: groups(RECORDS[t]) });
    show(path);
    const said = within(await notice());
    expect(said.getByText(says)).toBeTruthy();
    expect(said.getByRole("link", { name: /^Open: / }).getAttribute("href")).toBe(href);
  });

  it("an entry on the log, the shed and the season, until it is crossed out", async () => {
    const body = {
      kind: "spread",
      occurred_at: AT,
      zone_ids: [SOUND],
      product_id: SOUND,
      used_kg: 2,
      zones: 5,
    };
    for (const path of ["/log", "/shed", "/season", "/"]) {
      cleanup();
      book.put({ t: "entry", id: SICK, body });
      show(path);
      const link = within(await notice()).getByRole("link", { name: "Open: Spreading" });
      expect(link.getAttribute("href")).toBe(`/log/${SICK}`);
    }
    cleanup();
    show(`/log/${SICK}`);
    expect((await notice()).textContent).toMatch(/If it is wrong, cross it out below\.$/);
    cleanup();
    book.put({ t: "entry", id: SICK, body, groups: groups({ void: { void: true } }) });
    show("/log");
    await screen.findByRole("heading", { name: "Log" });
    expect(screen.queryByText("Not counted yet")).toBeNull();
  });

  it.each(["claim", "settlement", "photo"] as const)(
    "a %s, which can be removed where it is named",
    async (t) => {
      book.put({ t, id: SICK, groups: groups(RECORDS[t]) });
      show("/household");
      fireEvent.click(within(await notice()).getByRole("button", { name: /^Remove: / }));
      await waitFor(() => expect(screen.queryByText("Not counted yet")).toBeNull());
      expect(book.saved.at(-1)).toEqual([{ t, id: SICK, set: { deleted: { deleted: true } } }]);
    },
  );

  it("a zone whose area is missing, on its own page and where it would be walked", async () => {
    const { name, ground } = RECORDS.zone;
    for (const path of ["/ground", "/spread"]) {
      cleanup();
      book.put({ t: "zone", id: SICK, groups: groups({ name, ground: { method: ground.method } }) });
      show(path);
      expect(within(await notice()).getByText(/^Zone Front: Area is missing\./)).toBeTruthy();
    }
  });

  it("and no record of another place is named", async () => {
    book.put({ t: "product", id: SICK, groups: groups(RECORDS.product) });
    show("/ground");
    await screen.findByText("Back");
    expect(screen.queryByText("Not counted yet")).toBeNull();
  });
});

describe("the form of a sick record opens with what is wrong in its box", () => {
  it("a zone's, whose save asks for it to be put right", async () => {
    book.put({ t: "zone", id: SICK, groups: groups(RECORDS.zone) });
    show(`/ground/${SICK}/edit`);
    expect(await screen.findByDisplayValue("Front")).toBeTruthy();
    expect(screen.getByDisplayValue("900")).toBeTruthy();
    const before = book.saved.length;
    fireEvent.submit(document.querySelector("form") as HTMLFormElement);
    await waitFor(() => expect(document.querySelector("[aria-invalid=true]")).not.toBeNull());
    expect(book.saved.length).toBe(before);
  });

  it("a product's and a spreader's", async () => {
    book.put({ t: "product", id: SICK, groups: groups(RECORDS.product) });
    show(`/shed/product/${SICK}`);
    expect(await screen.findByDisplayValue("700")).toBeTruthy();
    expect(screen.getByDisplayValue("Old bag")).toBeTruthy();
    cleanup();
    book.put({ t: "spreader", id: SICK, groups: groups(RECORDS.spreader) });
    show(`/shed/spreader/${SICK}`);
    expect(await screen.findByDisplayValue("Hand-turned")).toBeTruthy();
    expect(screen.getByDisplayValue("9")).toBeTruthy();
  });
});

const HOSTILE = [5, "x", [null], { a: 1 }, { amount: 5, unit: 5 }];
const KINDS: Readonly<Record<string, KindTable | undefined>> = TABLE;
const filled = (fields: Rules, value: unknown) =>
  Object.fromEntries(Object.keys(fields).map((name) => [name, value]));
const json = (fields: Rules) => Object.entries(fields).filter(([, { type }]) => type === "json");

/** A record of every group with each field set so, and one each with only one JSON field set so. */
function hostileGroups(t: string, value: unknown): Record<string, object>[] {
  const own = Object.fromEntries(
    Object.entries(KINDS[t]?.groups ?? {}).filter(([name]) => name !== "deleted"),
  );
  const all = Object.fromEntries(Object.entries(own).map(([name, fields]) => [name, filled(fields, value)]));
  const sound = RECORDS[t as keyof typeof RECORDS] as Record<string, object>;
  const one = Object.entries(own).flatMap(([group, fields]) =>
    json(fields).map(([name]) => ({ ...sound, [group]: { ...sound?.[group], [name]: value } })),
  );
  return [all, ...one];
}

const PAGES: Record<string, string[]> = {
  zone: [
    "/",
    "/ground",
    `/ground/${SICK}`,
    `/ground/${SICK}/edit`,
    `/ground/${SICK}/outline`,
    "/season",
    "/spread",
  ],
  product: ["/shed", `/shed/product/${SICK}`, "/spread"],
  spreader: ["/shed", `/shed/spreader/${SICK}`, `/shed/spreader/${SICK}/trays`, "/spread"],
  claim: ["/"],
  photo: [`/ground/${SOUND}`],
  member: ["/household"],
};

describe("whatever stands in a record, no page is hidden by it", () => {
  it.each(Object.keys(PAGES))("a %s", async (t) => {
    for (const value of HOSTILE)
      for (const made of hostileGroups(t, value))
        for (const path of PAGES[t] ?? []) {
          cleanup();
          book.put({ t, id: SICK, groups: groups(made) });
          const where = `${path} with ${JSON.stringify(made)}`;
          try {
            show(path);
            await Promise.resolve();
            await new Promise((done) => setImmediate(done));
            // The page's own heading stands.
            expect(screen.getAllByRole("heading", { level: 1 }), where).toHaveLength(1);
          } catch (error) {
            throw new Error(`${where}: ${(error as Error).stack?.slice(0, 900)}`);
          }
        }
  });

  it.each(Object.keys(KINDS["entry"]?.bodies ?? {}))("an entry: %s", async (kind) => {
    const fields = { ...KINDS["entry"]?.body, ...KINDS["entry"]?.bodies?.[kind] } as Rules;
    const fixed = { kind, occurred_at: AT, zone_ids: [SOUND], spreader_id: SOUND, product_id: SOUND };
    for (const value of HOSTILE) {
      const laid = Object.fromEntries(
        Object.entries(KINDS["entry"]?.groups ?? {}).map(([name, own]) => [
          name,
          { ...filled(own, value), was: value },
        ]),
      );
      const bodies = [
        { ...filled(fields, value), kind },
        ...json(fields).map(([name]) => ({ ...fixed, [name]: value })),
      ];
      for (const body of bodies)
        for (const path of ["/log", `/log/${SICK}`, "/", `/shed/spreader/${SOUND}`]) {
          cleanup();
          book.put({ t: "entry", id: SICK, body, groups: groups(laid) });
          const where = `${path} with ${JSON.stringify(body)}`;
          try {
            show(path);
            await new Promise((done) => setImmediate(done));
            expect(screen.getAllByRole("heading", { level: 1 }), where).toHaveLength(1);
          } catch (error) {
            throw new Error(`${where}: ${(error as Error).stack?.slice(0, 900)}`);
          }
        }
    }
  });
});
