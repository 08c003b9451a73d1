import { cleanup, render, screen } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import type { Standing as Now, ParkedRow } from "../../platform/store/types";

const made = vi.hoisted(() => ({ standing: {} as object, former: false }));
vi.mock("../../platform/store", () => ({
  standing: {
    get value() {
      return made.standing;
    },
  },
}));
vi.mock("../../platform/session/session", () => ({
  former: {
    get value() {
      return made.former;
    },
  },
}));

const { Page } = await import("./page");
const { Standing } = await import("./standing");

const NOTHING: Now = { waiting: 0, parked: [], photosWaiting: 0, state: "saved" };
const aside = (op: string): ParkedRow => ({
  op,
  dseq: 1,
  where: "parked",
  why: { code: "invalid", message: "Some of it cannot be used." },
  at: "2026-05-14T18:05:00-04:00",
  m: [],
});

function open(now: Partial<Now>, former = false): void {
  made.standing = { ...NOTHING, ...now };
  made.former = former;
  render(<Page title="Edit the zone" back="/ground" children={null} />);
}

const chip = () => document.querySelector(".standing");

afterEach(() => {
  cleanup();
  made.former = false;
});

describe("S20 how entries stand, in the head of a page", () => {
  it.each<[string, Partial<Now>, string, string]>([
    ["all is sent", {}, "All saved", ""],
    ["no signal, nothing to send", { state: "offline" }, "Offline, all saved", ""],
    ["entries wait", { state: "waiting", waiting: 12 }, "12 waiting", "12"],
    ["entries wait for a sign-in", { state: "sign_in", waiting: 7 }, "Sign in to send 7", "7"],
    ["photos wait", { photosWaiting: 3 }, "3 photos waiting", "3"],
    ["some are set aside", { parked: [aside("a"), aside("b")], waiting: 1 }, "2 need fixing", "2"],
    ["very many wait", { state: "offline", waiting: 250 }, "250 waiting", "99+"],
  ])("is on every page unless it says otherwise: %s", (_, now, words, mark) => {
    open(now);
    expect(screen.getByRole("link", { name: words }).getAttribute("href")).toBe("/household/entries");
    expect(chip()?.querySelector("[aria-hidden] ~ [aria-hidden]")?.textContent).toBe(mark);
  });

  it("tells a former member first that they are one", () => {
    open({ waiting: 1 }, true);
    expect(screen.getByRole("link", { name: "No longer a member" })).toBeTruthy();
    expect(chip()?.classList.contains("standing--look")).toBe(true);
  });

  it("is left out where nobody's book is open", () => {
    made.standing = NOTHING;
    render(<Page title="Evenfall" actions={null} children={null} />);
    expect(chip()).toBeNull();
  });

  it("writes its words out where a page has room for them", () => {
    made.standing = { ...NOTHING, waiting: 2, state: "waiting" };
    render(<Standing />);
    expect(chip()?.textContent).toBe("2 waiting");
  });
});
