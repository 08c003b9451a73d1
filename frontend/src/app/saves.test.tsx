/** A save that the phone refuses: each screen says so in the one sentence, and is ready for the next try. */
import { signal } from "@preact/signals";
import { cleanup, fireEvent, render, screen, waitFor } from "@testing-library/preact";
import type { ComponentChild } from "preact";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { KINDS as LOG } from "../features/log/kinds";
import { createLog } from "../features/log/model/log";
import { createMowing } from "../features/mowing/model/mowing";
import { KINDS as SHED } from "../features/shed/kinds";
import { createShed } from "../features/shed/model/shed";
import { createTrays } from "../features/shed/model/trays";
import { createToday } from "../features/today/model/today";
import { NotStored } from "../platform/store/room";
import { entryOf } from "../records/entries";
import { fakeBook, fakeEngine, fakeRow, groups } from "../records/fake-book";
import { checkGroup } from "../records/kinds";
import type { EntryKind } from "../records/log/registry";

const NOW = "2026-05-14T18:00:00+02:00";
const PRODUCT = "018f0000-0000-7000-8000-00000000000a";
const ENTRY = "018f0000-0000-7000-8000-00000000000b";
const ZONE = "018f0000-0000-7000-8000-00000000000c";
const made = vi.hoisted(() => ({ models: {} as Record<string, any> }));
vi.mock("../features/shed/model", () => ({
  get shed() {
    return made.models["shed"];
  },
}));
vi.mock("../features/log/model", () => ({
  get log() {
    return made.models["log"];
  },
}));
vi.mock("../features/today/model", () => ({
  get today() {
    return made.models["today"];
  },
}));
vi.mock("../features/mowing/model", () => ({
  get mowers() {
    return made.models["mowing"].mowers;
  },
  get mows() {
    return made.models["mowing"].mows;
  },
  get mowing() {
    return made.models["mowing"].mowing;
  },
  nights: () => made.models["mowing"].nights(),
  get zones() {
    return made.models["mowing"].zones;
  },
}));
vi.mock("../records/log/named", async () => (await import("../records/log/names")).sayingNames((id) => id));
vi.mock("../records/live", () => ({
  keepOff: { said: { value: undefined }, zones: { value: {} }, look: () => {} },
  get forming() {
    return made.models["forming"];
  },
}));
vi.mock("../features/photos/model", () => ({
  get photos() {
    return { of: () => signal([]), take: async () => undefined, states: signal(new Map()) };
  },
}));
vi.mock("../platform/session/session", () => ({ units: signal("us"), former: signal(false) }));
vi.mock("../platform/engine", () => ({ useEngine: () => ({ answer: undefined, busy: false }) }));
vi.mock("../platform/store", () => ({
  standing: signal({ waiting: 0, parked: [], photosWaiting: 0, state: "saved" }),
  store: {
    drafts: { watch: () => signal(undefined) },
  },
}));

const { StockCount } = await import("../features/shed/screens/stock");
const { ProductPage } = await import("../features/shed/screens/product");
const { MoveSheet, NoteSheet, StrikeSheet } = await import("../features/log/screens/amend");
const { entrySheet } = await import("../features/log/screens/entry-sheet");
const { MowSheet } = await import("../features/mowing/screens/mow-sheet");
const { Toasts, clearToasts } = await import("../ui/parts");

const sheetOf = async (kind: string) => {
  const found = [...LOG, ...SHED].find((one) => one.kind === kind);
  return entrySheet(found as EntryKind);
};
const [ObserveSheet, CountSheet] = [await sheetOf("observation"), await sheetOf("stock_count")];

const FULL = "Not saved. Free some space on this phone and try again.";
const LOST = /^Not saved\. This phone’s storage did not answer\./;

let store: ReturnType<typeof fakeBook>;
let refuse: unknown;

beforeEach(() => {
  HTMLDialogElement.prototype.showModal = function open() {
    this.open = true;
  };
  HTMLDialogElement.prototype.close = function close() {
    this.open = false;
  };
  store = fakeBook();
  const real = store.save;
  store.save = async (...given) => {
    if (refuse) throw refuse;
    return real(...given);
  };
  const engine = fakeEngine({
    "record.totals": {},
    "record.due": { zones: {} },
  });
  const parts = {
    store,
    engine,
    day: () => "2026-05-14",
    system: () => "us" as const,
    check: checkGroup,
    now: () => NOW,
    memberId: () => undefined,
  };
  made.models["shed"] = createShed(parts);
  made.models["log"] = createLog(parts);
  made.models["forming"] = parts;
  made.models["today"] = createToday(parts);
  made.models["mowing"] = createMowing(parts);
  made.models["trays"] = createTrays(parts);
  store.put({
    t: "product",
    id: PRODUCT,
    groups: groups({ name: { name: "Slow 24", sort: "fertilizer" }, label: { net_kg: 20 } }),
  });
  store.put({ t: "zone", id: ZONE, groups: groups({ name: { name: "Front" } }) });
  store.put({
    t: "entry",
    id: ENTRY,
    body: { kind: "observation", text: "Moss", occurred_at: "2026-05-12T08:00:00+02:00", zone_ids: [] },
  });
});
afterEach(() => {
  refuse = undefined;
  clearToasts();
  cleanup();
});

const entry = () => entryOf(store.row("entry", ENTRY).value ?? fakeRow({ t: "entry", id: ENTRY }));
const close = () => undefined;
const type = (label: string | RegExp, value: string) =>
  fireEvent.input(screen.getByLabelText(label), { target: { value } });

const button = (name: string) => screen.getByRole("button", { name, hidden: true });

type Save = readonly [what: string, draw: () => ComponentChild, fill: () => unknown, name: string];
const SAVES: readonly Save[] = [
  [
    "a count in the shed",
    () => <StockCount id={PRODUCT} />,
    async () => {
      fireEvent.click(button("Count it"));
      await screen.findByLabelText("In the shed now");
      type("In the shed now", "12");
    },
    "Save the count",
  ],
  [
    "a note",
    () => <NoteSheet entry={entry()} open onClose={close} />,
    () => type("Note", "Wet"),
    "Save the note",
  ],
  [
    "another moment",
    () => <MoveSheet entry={entry()} open onClose={close} />,
    () => type("When", "2026-05-11T09:00"),
    "Save",
  ],
  [
    "crossing out",
    () => <StrikeSheet entry={entry()} open onClose={close} />,
    () => type(/Reason/, "Twice"),
    "Cross out",
  ],
  [
    "a count in the log",
    () => <CountSheet open onClose={close} />,
    () => type("In the shed now", "12"),
    "Save the count",
  ],
  [
    "something seen",
    () => <ObserveSheet open onClose={close} />,
    () => type("What you noticed", "Moss"),
    "Save",
  ],
  [
    "a mow",
    () => <MowSheet open onClose={close} zoneIds={[]} add={made.models["today"].add} />,
    () => type("Minutes mowed", "20"),
    "Save the mow",
  ],
  ["taking out of the shed", () => <ProductPage id={PRODUCT} />, () => undefined, "Remove from the shed"],
  ["a product", () => <ProductPage id={PRODUCT} />, () => type(/Name/, "Slow 25"), "Save"],
];

describe("a save that failed", () => {
  it.each(SAVES)(
    "(%s) is said in one sentence, for want of room and for a lost connection, and can be tried again",
    async (_what, draw, fill, name) => {
      render(
        <>
          {draw()}
          <Toasts />
        </>,
      );
      await waitFor(() => expect(screen.queryByText("Opening…")).toBeNull());
      await fill();
      for (const [why, text] of [
        [new NotStored("full"), FULL],
        [new NotStored("lost"), LOST],
        [new Error("something else"), FULL],
      ] as const) {
        refuse = why;
        fireEvent.click(button(name));
        expect(await screen.findByText(text)).toBeTruthy();
        await waitFor(() => expect(button(name).getAttribute("aria-busy")).toBeNull());
      }
      const before = store.saved.length;
      refuse = undefined;
      fireEvent.click(button(name));
      await waitFor(() => expect(store.saved.length).toBe(before + 1));
    },
  );
});

type Typing = readonly [what: string, draw: () => ComponentChild, label: string | RegExp, value: string];
const TYPED: readonly Typing[] = [
  ["a note", () => <NoteSheet entry={entry()} open onClose={close} />, "Note", "Wet"],
  ["another moment", () => <MoveSheet entry={entry()} open onClose={close} />, "When", "2026-05-11T09:00"],
  ["crossing out", () => <StrikeSheet entry={entry()} open onClose={close} />, /Reason/, "Twice"],
  ["a count", () => <CountSheet open onClose={close} />, "In the shed now", "12"],
  ["something seen", () => <ObserveSheet open onClose={close} />, "What you noticed", "Rust"],
  [
    "a mow",
    () => <MowSheet open onClose={close} zoneIds={[]} add={made.models["today"].add} />,
    "Note",
    "Damp",
  ],
  ["a product", () => <ProductPage id={PRODUCT} />, /^Name/, "Slow 25"],
];

describe("what is typed", () => {
  it.each(TYPED)("(%s) outlives a killed page and can be discarded", async (_what, draw, label, value) => {
    render(draw());
    fireEvent.input(await screen.findByLabelText(label), { target: { value } });
    cleanup();
    render(
      <>
        {draw()}
        <Toasts />
      </>,
    );
    expect(((await screen.findByLabelText(label)) as HTMLInputElement).value).toBe(value);
    expect(screen.getByText("Unsaved changes")).toBeTruthy();
    fireEvent.click(button("Discard changes"));
    await waitFor(() => expect(store.kept.size).toBe(0));
    fireEvent.click(await screen.findByRole("button", { name: "Undo", hidden: true }));
    await waitFor(() => expect(store.kept.size).toBe(1));
  });
});

describe("what was saved", () => {
  it.each(TYPED)("(%s) is offered back with the same words", async (_what, draw, label, value) => {
    const [, , , name] = SAVES.find(([what]) => _what.startsWith(what.slice(0, 7))) ?? SAVES[0] ?? [];
    render(
      <>
        {draw()}
        <Toasts />
      </>,
    );
    fireEvent.input(await screen.findByLabelText(label), { target: { value } });
    const before = store.row("entry", ENTRY).value;
    fireEvent.click(button(String(name)));
    fireEvent.click(await screen.findByRole("button", { name: "Undo", hidden: true }));
    expect(await screen.findByText("Undone.")).toBeTruthy();
    expect(store.row("entry", ENTRY).value?.groups).toEqual(before?.groups);
    expect(store.rows("entry").value).toHaveLength(1);
  });
});
