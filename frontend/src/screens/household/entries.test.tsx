import { signal } from "@preact/signals";
import { cleanup, fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import type { ParkedRow, Standing } from "../../store/types";

const made = vi.hoisted(() => ({
  discarded: [] as string[],
  again: [] as string[],
  models: {} as Record<string, unknown>,
}));
vi.mock("../../models", () => ({
  get household() {
    return made.models["household"];
  },
  log: { nameOf: () => undefined },
}));
vi.mock("../../models/sync", () => ({ syncNow: () => undefined }));
vi.mock("../../store", () => ({
  discardParked: async ({ op }: { op: string }) => void made.discarded.push(op),
  sendParkedAgain: async ({ op }: { op: string }) => void made.again.push(op),
}));

const { Entries } = await import("./entries");

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
  made.models["household"] = { standing: signal(standing), pending: signal([]) };
  render(<Entries />);
}

afterEach(() => {
  cleanup();
  made.discarded.length = 0;
  made.again.length = 0;
});

describe("where entries stand", () => {
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
      "signed out by time",
      { waiting: 7, parked: [], photosWaiting: 0, state: "sign_in" },
      /7 entries wait.*sign in again; nothing is lost/,
    ],
    [
      "trouble",
      { waiting: 2, parked: [], photosWaiting: 0, state: "trouble", trouble: "The server is resting." },
      /The server is resting\. 2 entries/,
    ],
  ])("says in words: %s", (_, standing, words) => {
    open(standing);
    expect(screen.getByRole("status").textContent).toMatch(words);
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

  it("tries again on a tap", async () => {
    open({ waiting: 0, parked: [PARKED], photosWaiting: 0, state: "saved" });
    fireEvent.click(screen.getByRole("button", { name: "Try again" }));
    await waitFor(() => expect(made.again).toEqual(["op-1"]));
  });

  it("throws nothing away before it has asked", async () => {
    open({ waiting: 0, parked: [PARKED], photosWaiting: 0, state: "saved" });
    fireEvent.click(screen.getByRole("button", { name: "Throw away" }));
    const asked = await screen.findByRole("dialog", { name: "Throw this away?" });
    expect(made.discarded).toEqual([]);
    fireEvent.click(within(asked).getByRole("button", { name: "Throw away" }));
    await waitFor(() => expect(made.discarded).toEqual(["op-1"]));
  });
});
