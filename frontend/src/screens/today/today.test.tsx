import { cleanup, fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { createClaims } from "../../models/claims";
import { fakeBook, fakeEngine, groups, says } from "../../models/fake-book";
import { createLog } from "../../models/log";
import { createToday } from "../../models/today";
import { clearToasts, Toasts } from "../../parts";

const made = vi.hoisted(() => ({ models: {} as Record<string, unknown> }));
vi.mock("../../models", () => ({
  get claims() {
    return made.models["claims"];
  },
  get today() {
    return made.models["today"];
  },
  get log() {
    return made.models["log"];
  },
}));

const { default: Today } = await import("./index");

const DAY = "2026-05-14";
const NOW = `${DAY}T18:05:00-04:00`;

function open(zones: boolean) {
  const store = fakeBook();
  const engine = fakeEngine({
    "record.totals": () => says({ zones: {}, products: {} }),
    "record.due": () => says({ zones: { z: { due_on: null, overdue_days: 0, state: "never" } } }),
  });
  if (zones) store.put({ t: "zone", id: "z", groups: groups({ name: { name: "Street verge" } }) });
  made.models["today"] = createToday({
    store,
    engine,
    day: () => "2026-05-14",
    now: () => NOW,
    memberId: () => "me",
  });
  const mine = { day: () => DAY, now: () => NOW, memberId: () => "me" };
  made.models["claims"] = createClaims({ store, ...mine });
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
afterEach(() => {
  cleanup();
  clearToasts();
});

describe("Today as a person meets it", () => {
  it("teaches the first step of a blank book", () => {
    open(false);
    expect(screen.getByRole("heading", { name: "A blank book" })).toBeTruthy();
    expect(screen.getByRole("link", { name: "Measure a zone" }).getAttribute("href")).toBe("/ground/new");
  });

  it("asks for the next thing once there is ground", () => {
    open(true);
    expect(screen.getByRole("link", { name: "Add a product" })).toBeTruthy();
  });

  it("notes a zone's mow on one tap and takes it back on the next", async () => {
    const store = open(true);
    fireEvent.click(await screen.findByRole("button", { name: "Mown: Street verge" }));
    fireEvent.click(await within(screen.getByRole("status")).findByRole("button", { name: "Undo" }));
    await waitFor(() => expect(store.rows("entry").value).toEqual([]));
    expect(store.saved[0]?.[0]?.body).toMatchObject({ kind: "mow", zone_ids: ["z"] });
  });

  it("shows an entry that waits to be sent", async () => {
    open(true);
    fireEvent.click(await screen.findByRole("button", { name: "Whole yard mown" }));
    const waiting = await screen.findByRole("region", { name: "Waiting to be sent" });
    expect(within(waiting).getByRole("link", { name: /Mow/ }).textContent).toContain("Street verge");
  });

  it("says that nothing was noted when the phone could not store it", async () => {
    const store = open(true);
    store.save = () => Promise.reject(new Error("quota"));
    fireEvent.click(await screen.findByRole("button", { name: "Whole yard mown" }));
    expect(await screen.findByText(/could not be stored on this phone, so nothing was noted/)).toBeTruthy();
  });

  it("asks for a zone and a time before it saves a mow with details", async () => {
    const store = open(true);
    fireEvent.click(await screen.findByRole("button", { name: "Note a mow with details" }));
    const sheet = await screen.findByRole("dialog", { name: "Note a mow" });
    fireEvent.click(within(sheet).getByLabelText("Street verge"));
    fireEvent.input(within(sheet).getByLabelText("Height before"), { target: { value: "tall" } });
    fireEvent.submit(sheet.querySelector("form") as HTMLFormElement);
    await waitFor(() => expect(sheet.textContent).toContain("Choose at least one zone."));
    expect(sheet.textContent).toContain("not a number");
    expect(store.saved).toEqual([]);
  });
});
