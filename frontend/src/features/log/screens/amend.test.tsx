import { signal } from "@preact/signals";
import { cleanup, fireEvent, render, screen, waitFor } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { isoMoment } from "../../../format";
import { localOfMoment } from "../../../format/moment";
import { entryOf } from "../../../records/entries";
import { fakeBook, fakeRow } from "../../../records/fake-book";
import { createLog } from "../model/log";

const ENTRY = "018f0000-0000-7000-8000-00000000000b";
const elsewhere = isoMoment(new Date("2026-05-14T16:05:00Z")).endsWith("+09:00") ? "-07:00" : "+09:00";
const AWAY = `2026-05-15T01:05:30${elsewhere}`;
const made = vi.hoisted(() => ({ models: {} as Record<string, any> }));
vi.mock("../model", () => ({
  get log() {
    return made.models["log"];
  },
}));
vi.mock("../../../records/live", () => ({
  get forming() {
    return made.models["forming"];
  },
}));
vi.mock("../../../platform/session/session", () => ({ units: signal("us"), former: signal(false) }));

const { MoveSheet } = await import("./amend");

let store: ReturnType<typeof fakeBook>;
const close = vi.fn();

beforeEach(() => {
  HTMLDialogElement.prototype.showModal = function open() {
    this.open = true;
  };
  HTMLDialogElement.prototype.close = function shut() {
    this.open = false;
  };
  store = fakeBook();
  const parts = { store, now: () => "2026-05-20T18:00:00Z", memberId: () => undefined };
  made.models["log"] = createLog(parts);
  made.models["forming"] = { ...parts, system: () => "us" };
  const body = { kind: "mow", occurred_at: AWAY, zone_ids: [] };
  render(<MoveSheet entry={entryOf(fakeRow({ t: "entry", id: ENTRY, body }))} open={true} onClose={close} />);
});
afterEach(() => {
  cleanup();
  close.mockClear();
});

const save = () => fireEvent.click(screen.getByRole("button", { name: "Save", hidden: true }));
const type = (value: string) => fireEvent.input(screen.getByLabelText("When"), { target: { value } });
const written = () => (store.saved[0]?.[0]?.set?.["when"] as any)?.occurred_at;

describe("amending when something was done", () => {
  it("opened and saved as it is, changes nothing, wherever the entry was written", async () => {
    save();
    await waitFor(() => expect(close).toHaveBeenCalled());
    expect(store.saved).toEqual([]);
  });

  it("keeps the clock of the place it was written at", async () => {
    expect(
      screen.getByText(new RegExp(`clock of the place it was done \\(UTC\\${elsewhere}\\)`)),
    ).toBeTruthy();
    type("2026-05-15T02:05");
    save();
    await waitFor(() => expect(written()).toBe(`2026-05-15T02:05:00${elsewhere}`));
  });

  it("refuses a day to come, and says what to choose", async () => {
    type(localOfMoment(isoMoment(new Date(Date.now() + 3 * 86_400_000))));
    save();
    expect(
      await screen.findByText(/in the future\. Choose when it was done: today or earlier\./),
    ).toBeTruthy();
    expect(store.saved).toEqual([]);
  });
});
