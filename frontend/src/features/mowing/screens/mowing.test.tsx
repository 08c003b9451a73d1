import { signal } from "@preact/signals";
import { cleanup, fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { Router } from "wouter-preact";
import { memoryLocation } from "wouter-preact/memory-location";
import { realEngine } from "../../../platform/engine/real-engine";
import type { Args, CallName, EngineCall } from "../../../platform/engine/types";
import { entryOf } from "../../../records/entries";
import { type FakeBook, fakeBook, groups } from "../../../records/fake-book";
import { createNames } from "../../../records/log/names";
import { createWriting } from "../../../records/log/writing";
import { createMowing } from "../model/mowing";

const MOWER = "018f0000-0000-7000-8000-00000000000a";
const ZONE = "018f0000-0000-7000-8000-00000000000c";
const DAY = "2026-05-14";
interface Models {
  mowing: ReturnType<typeof createMowing>;
  add: ReturnType<typeof createWriting>["add"];
  names: ReturnType<typeof createNames>;
}

const made = vi.hoisted(() => ({ models: {} as Models }));
vi.mock("../model", () => ({
  get mowers() {
    return made.models.mowing.mowers;
  },
  get mows() {
    return made.models.mowing.mows;
  },
  get mowing() {
    return made.models.mowing.mowing;
  },
  nights: () => made.models.mowing.nights(),
  get zones() {
    return made.models.mowing.zones;
  },
}));
vi.mock("../../../records/live", () => ({ system: () => "us" }));
vi.mock("../../today", () => ({ KeepOffNotices: () => null }));
vi.mock("../../../records/log/named", async () => {
  const { sayingNames } = await import("../../../records/log/names");
  return sayingNames((id) => made.models.names.nameOf(id));
});
vi.mock("../../../platform/session/session", () => ({ units: signal("us"), former: signal(false) }));
vi.mock("../../../platform/session/clock", () => ({ today: () => "2026-05-14" }));
vi.mock("../../../platform/store", () => ({
  standing: signal({ waiting: 0, parked: [], photosWaiting: 0, state: "saved" }),
}));
vi.mock("../../../platform/engine", () => ({
  useEngine: <N extends CallName>(name: N, args: Args<N> | null) => ({
    answer: args === null ? undefined : realEngine(name, args),
    busy: false,
  }),
}));

const warm = vi.hoisted(() => ({ days: undefined as { date: string; mean_c: number }[] | undefined }));
vi.mock("../model/recent-here", async () => {
  const { signal } = await import("@preact/signals");
  return { recentHere: async () => signal(warm.days && { value: warm.days }) };
});

const { MowSheet } = await import("./mow-sheet");
const { MowerPage } = await import("./mower");
const { Mowers } = await import("./mowers");
const { mow } = await import("../entries/mow");
const { MowDetail } = await import("./mow-detail");

const DECK = {
  notches: [
    { label: "4", measured_mm: 76.2 },
    { label: "5", measured_mm: 101.6 },
    { label: "6", measured_mm: 127 },
  ],
};

let store: FakeBook;

beforeEach(() => {
  HTMLDialogElement.prototype.showModal = function open() {
    this.open = true;
  };
  HTMLDialogElement.prototype.close = function close() {
    this.open = false;
  };
  store = fakeBook();
  let count = 0;
  store.newId = () => `018f0000-0000-7000-8000-0000000001${String(count++).padStart(2, "0")}`;
  const parts = {
    store,
    engine: { call: (async (name, args) => realEngine(name, args)) as EngineCall },
    system: () => "us" as const,
    day: () => DAY,
    now: () => `${DAY}T18:00:00+02:00`,
    memberId: () => undefined,
  };
  made.models.mowing = createMowing(parts);
  made.models.add = createWriting(parts).add;
  made.models.names = createNames(store);
});
afterEach(() => {
  cleanup();
  warm.days = undefined;
});

function zone(grass = "tall_fescue", cut: object = { cut_height_mm: 76.2, mow_every_days: 3.5 }, site = {}) {
  store.put({
    t: "zone",
    id: ZONE,
    groups: groups({ name: { name: "Verge" }, grass: { grass }, cut, site }),
  });
}

function mower(blade: object = {}) {
  store.put({ t: "mower", id: MOWER, groups: groups({ name: { name: "Push mower" }, deck: DECK, blade }) });
}

function mowed(facts: object, on = "2026-05-12", id = "m1") {
  const body = { kind: "mow", occurred_at: `${on}T18:00:00+02:00`, zone_ids: [ZONE], ...facts };
  store.put({ t: "entry", id, body });
}

async function sheet(): Promise<HTMLElement> {
  const close = () => undefined;
  render(<MowSheet open onClose={close} zoneIds={[ZONE]} add={made.models.add} />);
  await screen.findByLabelText("Height before");
  return screen.getByRole("dialog", { name: "Log a mow", hidden: true });
}

const tall = (inches: string) =>
  fireEvent.input(screen.getByLabelText("Height before"), { target: { value: inches } });
const notch = (label: string) =>
  fireEvent.change(screen.getByLabelText("Notch"), { target: { value: label } });
const said = (element: Element) => (element.textContent ?? "").replaceAll("\u00a0", " ");

describe("the mow sheet", () => {
  it("says the height for the zone and the notch that cuts so", async () => {
    zone();
    mower();
    const found = await sheet();
    expect(said(found)).toContain("Verge: mowing height3 in: notch 4");
    expect(said(found)).not.toContain("Notch 4 cuts at");
  });

  it("asks for a height where neither the zone nor its grass has one", async () => {
    zone("", {});
    const found = await sheet();
    expect(said(found)).toContain("Verge: no mowing height yet");
    expect(within(found).getByText("Set the height").getAttribute("href")).toBe(`/ground/${ZONE}/edit`);
  });

  it("cuts higher where it wilts, and says better not to mow", async () => {
    zone();
    mower();
    const found = await sheet();
    fireEvent.click(screen.getByLabelText("Wilted or gone brown from drought"));
    await waitFor(() => expect(said(found)).toContain("Higher in drought"));
    expect(said(found)).toContain("Don’t mow wilted grass");
  });

  it("cuts higher after a hot week, and shows which days say so", async () => {
    zone();
    mower();
    const days = (mean_c: number) =>
      Array.from({ length: 14 }, (_, at) => ({ date: `2026-05-${String(at + 1).padStart(2, "0")}`, mean_c }));
    warm.days = days(27);
    const found = await sheet();
    await waitFor(() => expect(said(found)).toContain("Verge: mowing height3.13 in: notch 5"));
    expect(said(found)).toContain("Higher in heat");
    fireEvent.click(screen.getByText("Verge: mowing height"));
    await screen.findByText(/Mean temperature of the last week/);
    cleanup();
    warm.days = days(18);
    expect(said(await sheet())).toContain("Verge: mowing height3 in: notch 4");
  });

  it("plans the way down of long grass, no cut of more than a third, each by a notch", async () => {
    zone();
    mower();
    const found = await sheet();
    tall("6");
    await waitFor(() => expect(said(found)).toContain("Tonight: cut to 4 in: notch 5. Takes 33%"));
    expect(said(found)).toMatch(
      /Sun.* May 17: cut to 3 in: notch 4\. Takes 25%|17.*: cut to 3 in: notch 4\. Takes 25%/,
    );
  });

  it("plans the way down on the household's own mowing nights", async () => {
    zone();
    mower();
    const rhythm = { mow_tuesday: true, mow_saturday: true };
    store.put({ t: "household", id: "h", groups: groups({ rhythm }) });
    const found = await sheet();
    tall("6");
    await waitFor(() => expect(said(found)).toContain("Tonight: cut to 4 in: notch 5. Takes 33%"));
    expect(said(found)).toMatch(/Sat 16 May: cut to 3 in: notch 4\. Takes 25%/);
  });

  it("names no height where the grass is too tall for every notch", async () => {
    zone();
    mower();
    const found = await sheet();
    tall("20");
    await waitFor(() => expect(said(found)).toContain("Verge: too tall for the mower"));
    expect(said(found)).not.toContain("Tonight:");
  });

  it("plans anew from what was really cut", async () => {
    zone();
    mower();
    mowed({ cut_height_mm: 127, notch: "6", mower_id: MOWER });
    const found = await sheet();
    expect(said(found)).toContain("Last cut to 5 in, still on its way down");
    expect(said(found)).toMatch(/15.*: cut to 4 in: notch 5\. Takes 20%/);
    expect(said(found)).not.toContain("Tonight:");
    tall("5.5");
    await waitFor(() => expect(said(found)).toContain("Tonight: cut to 4 in: notch 5. Takes 27%"));
  });

  it("offers the two exceptions only beyond a third, the low spring cut for warm-season grass only", async () => {
    zone();
    mower();
    const found = await sheet();
    expect(screen.queryByText("More than a third on purpose?")).toBeNull();
    tall("6");
    notch("4");
    await screen.findByText("More than a third on purpose?");
    expect(screen.queryByLabelText(/low cut in spring/)).toBeNull();
    expect(said(found)).toContain("Share of the blade cut50%");
    fireEvent.click(screen.getByLabelText(/^Renovation/));
    await screen.findByText("More than a third, on purpose");
  });

  it("offers the low spring cut on warm-season grass", async () => {
    zone("bermudagrass");
    mower();
    await sheet();
    tall("6");
    notch("4");
    fireEvent.click(await screen.findByLabelText(/low cut in spring/));
    await screen.findByText("More than a third, on purpose");
  });

  it("warns of a height the mower does not reach", async () => {
    zone();
    mower();
    const found = await sheet();
    fireEvent.input(screen.getByLabelText("Cut to"), { target: { value: "6" } });
    await waitFor(() => expect(said(found)).toContain("Push mower cuts at 5 in at most"));
  });

  it("reads the grass by eye, about one notch over the last cut", async () => {
    zone();
    mower();
    mowed({ cut_height_mm: 76.2, notch: "4", mower_id: MOWER });
    const found = await sheet();
    fireEvent.click(screen.getByText("About one notch over"));
    await waitFor(() => expect(said(found)).toContain("By eye, ± 0.31 in"));
    expect((screen.getByLabelText("Height before") as HTMLInputElement).value).toBe("4");
    fireEvent.submit(found.querySelector("form") as HTMLFormElement);
    await waitFor(() => expect(store.saved).toHaveLength(1));
    expect(store.saved[0]?.[0]?.body).toMatchObject({
      height_before_mm: 101.6,
      height_before_by: "over_notch",
      height_before_error_mm: 8,
    });
  });

  it("is the sheet it was where there is no mower", async () => {
    zone();
    await sheet();
    expect(screen.queryByLabelText("Mower")).toBeNull();
    expect(screen.queryByLabelText("Notch")).toBeNull();
  });
});

describe("a mow in the log", () => {
  const FACTS = {
    height_before_mm: 152.4,
    height_before_by: "ruler",
    height_before_error_mm: 3,
    cut_height_mm: 127,
    notch: "6",
    mower_id: MOWER,
    minutes: 35,
    direction: "diagonal",
    double_cut: true,
    clippings: "collected",
    exception: "renovation",
    height_after_mm: 130,
  };
  const entry = () => entryOf(store.row("entry", "m1").value as never);

  it("says how it was cut, in a line and on its page", () => {
    zone();
    mower();
    mowed(FACTS);
    const plain = (text: string) => text.replaceAll("\u00a0", " ");
    expect(plain(mow.brief(entry(), "us"))).toBe("Verge · cut to 5 in · notch 6 · 35 minutes");
    expect(mow.facts(entry(), "us").map(([name, value]) => `${name}: ${plain(value)}`)).toEqual([
      "Height before: 6 in",
      "Read: by ruler, ± 0.12 in",
      "Cut to: 5 in",
      "Notch: 6",
      "Mower: Push mower",
      "More than a third: Renovation: the ground is sown again",
      "Direction: Diagonal",
      "Cut twice, crosswise: yes",
      "Time: 35 minutes",
      "Clippings: collected",
      "Height after: 5.12 in",
    ]);
  });

  it("says of a mow from before no more than it did", () => {
    zone();
    mowed({ cut_height_mm: 76.2 });
    expect(mow.facts(entry(), "us")).toHaveLength(1);
  });

  it("shows what it took and the cuts to come, from the height measured after it", () => {
    zone();
    mower();
    mowed(FACTS);
    const { container } = render(<MowDetail entry={entry()} />);
    expect(said(container)).toContain("Share of the blade cut17%");
    expect(said(container)).toContain("Still above 3 in. Next:");
    expect(said(container)).toMatch(/15.*: cut to 4 in: notch 5\. Takes 22%/);
  });

  it("shows no cuts to come once there was another", () => {
    zone();
    mower();
    mowed(FACTS, "2026-05-11");
    mowed({ cut_height_mm: 76.2 }, "2026-05-13", "m2");
    const { container } = render(<MowDetail entry={entry()} />);
    expect(said(container)).not.toContain("Next:");
  });
});

describe("a mower's page", () => {
  function page() {
    const { hook } = memoryLocation({ path: `/shed/mower/${MOWER}` });
    return render(
      <Router hook={hook}>
        <MowerPage id={MOWER} />
      </Router>,
    ).container;
  }

  it("has its notches, the hours of its blade, and what to do before touching it", () => {
    mower({ sharpened_on: "2026-05-01" });
    mowed({ mower_id: MOWER, minutes: 90 });
    mowed({}, "2026-05-13", "m2");
    const text = said(page());
    expect(text).toContain("3 in");
    expect(text).toContain("Hours since sharpening1.5 h");
    expect(text).toContain("Sharpen in 8.5 h of mowing");
    expect(text).toContain("1 mow has no minutes.");
    expect(text).toContain(
      "pull off the spark plug lead, or take the battery out. Your mower’s manual comes first.",
    );
  });

  it("says when its hours are up by the manual", () => {
    mower({ sharpened_on: "2026-05-01", hours_between: 1 });
    mowed({ mower_id: MOWER, minutes: 90 });
    expect(said(page())).toContain("Sharpen it now: its hours are up.");
  });

  it("notes that it was sharpened today at one tap", async () => {
    mower();
    page();
    fireEvent.click(screen.getByText("Sharpened today"));
    await waitFor(() => expect(store.saved).toHaveLength(1));
    expect(store.saved[0]?.[0]?.set).toEqual({ blade: { sharpened_on: DAY } });
  });
});

describe("mowers in the shed", () => {
  it("are listed with their notches, or asked for", () => {
    const { container, unmount } = render(<Mowers />);
    expect(said(container)).toContain("No mower yet");
    unmount();
    mower();
    expect(said(render(<Mowers />).container)).toContain("3 notches, 3–5 in");
  });
});
