import { signal } from "@preact/signals";
import { cleanup, fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import type { ParkedRow, Standing } from "../../../../platform/store/types";

const made = vi.hoisted(() => ({
  discarded: [] as string[],
  again: [] as string[],
  models: {} as Record<string, unknown>,
}));
vi.mock("../../model", () => ({
  get household() {
    return made.models["household"];
  },
}));
vi.mock("../../../../records/log/named", () => ({ nameOf: () => undefined }));
vi.mock("../../../../platform/session/session", async () => {
  const { signal } = await import("@preact/signals");
  return { former: signal(false), session: signal(null), units: signal("us") };
});
vi.mock("./conflicts", () => ({ Conflicts: () => null }));
vi.mock("../../../../platform/sync/running", () => ({ syncNow: () => undefined }));
vi.mock("../../../../platform/store", () => ({
  heedGone: async () => undefined,
  exportAll: async () => ({}),
  standing: { value: { waiting: 0, parked: [], photosWaiting: 0, state: "saved" } },
  discardParked: async ({ op }: { op: string }) => void made.discarded.push(op),
  sendParkedAgain: async ({ op }: { op: string }) => void made.again.push(op),
}));

const { EntriesPage } = await import("./index");

const PARKED: ParkedRow = {
  op: "op-1",
  dseq: 1,
  where: "parked",
  why: {
    code: "invalid",
    message: "Some of it cannot be used.",
    fields: { area_m2: "Area is too large. Allowed is up to 100000." },
  },
  at: "2026-05-14T18:05:00-04:00",
  m: [{ t: "zone", id: "z", set: { name: { name: "Long side" } } }],
};

function open(standing: Standing): void {
  made.models["household"] = {
    household: signal({ name: "Alder Bend" }),
    standing: signal(standing),
    pending: signal([]),
  };
  render(<EntriesPage />);
}

afterEach(() => {
  cleanup();
  made.discarded.length = 0;
  made.again.length = 0;
});

describe("S20 where entries stand", () => {
  it.each<[string, Standing, RegExp]>([
    [
      "all sent",
      { waiting: 0, parked: [], photosWaiting: 0, state: "saved" },
      /Everything is saved on this phone and sent/,
    ],
    [
      "no signal",
      { waiting: 3, parked: [], photosWaiting: 0, state: "offline" },
      /No signal\. 3 entries wait on this phone/,
    ],
    [
      "one waits",
      { waiting: 1, parked: [], photosWaiting: 0, state: "waiting" },
      /1 entry waits on this phone/,
    ],
    [
      "photos wait as well",
      { waiting: 1, parked: [], photosWaiting: 2, state: "waiting" },
      /1 entry and 2 photos wait on this phone to be sent/,
    ],
    [
      "too old to send",
      { waiting: 2, parked: [], photosWaiting: 0, state: "update" },
      /too old to send.*2 entries wait.*Others’ entries still come in/,
    ],
    [
      "signed out by time",
      { waiting: 7, parked: [], photosWaiting: 0, state: "sign_in" },
      /7 entries wait.*Sign in again.*Nothing is lost/,
    ],
    [
      "trouble",
      { waiting: 2, parked: [], photosWaiting: 0, state: "trouble", trouble: "The server is resting." },
      /The server is resting\. 2 entries/,
    ],
  ])("says in words: %s", (_, standing, words) => {
    open(standing);
    expect(
      screen
        .getAllByRole("status")
        .map((one) => one.textContent)
        .join(" "),
    ).toMatch(words);
  });

  it("offers the way in when the time has run out", () => {
    open({ waiting: 7, parked: [], photosWaiting: 0, state: "sign_in" });
    expect(screen.getByRole("link", { name: "Sign in again" })).toBeTruthy();
  });

  it("says what was set aside and why, field by field", () => {
    open({ waiting: 0, parked: [PARKED], photosWaiting: 0, state: "saved" });
    const item = screen.getByText("Zone: Long side").closest("li") as HTMLElement;
    expect(item.textContent).toContain("Some of it cannot be used.");
    expect(item.textContent).toContain("Area is too large. Allowed is up to 100000.");
  });

  it("sends it as it is on a tap", async () => {
    open({ waiting: 0, parked: [PARKED], photosWaiting: 0, state: "saved" });
    fireEvent.click(screen.getByRole("button", { name: "Send again: Zone: Long side" }));
    await waitFor(() => expect(made.again).toEqual(["op-1"]));
  });

  it("throws nothing away before it has asked", async () => {
    open({ waiting: 0, parked: [PARKED], photosWaiting: 0, state: "saved" });
    fireEvent.click(screen.getByRole("button", { name: "Discard: Zone: Long side" }));
    const asked = await screen.findByRole("dialog", { name: "Discard this?" });
    expect(made.discarded).toEqual([]);
    fireEvent.click(within(asked).getByRole("button", { name: "Discard" }));
    await waitFor(() => expect(made.discarded).toEqual(["op-1"]));
  });

  it("S22 F48 says that an entry is held for the keeper, and offers no mending of it", () => {
    const held = { code: "pending_review", message: "You are no longer in this household." };
    open({ waiting: 0, parked: [{ ...PARKED, why: held }], photosWaiting: 0, state: "trouble" });
    expect(screen.getByText("You are no longer in this household.")).toBeTruthy();
    expect(screen.queryByRole("link", { name: /^Fix/ })).toBeNull();
  });

  it("S20 says whether the browser promised to keep the store", () => {
    open({ waiting: 0, parked: [], photosWaiting: 0, state: "saved", persisted: false });
    expect(screen.getByText(/may clear this app’s data/)).toBeTruthy();
  });

  it("F36 says how many entries went with a cleared store, until that was read", () => {
    open({ waiting: 0, parked: [], photosWaiting: 0, state: "saved", gone: 4 });
    expect(screen.getByText(/4 entries were lost when the browser cleared its data/)).toBeTruthy();
    expect(screen.getByRole("button", { name: "I have read this" })).toBeTruthy();
  });
});
