import { signal } from "@preact/signals";
import { cleanup, fireEvent, render, screen, waitFor } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";

const standing = signal({ waiting: 0, parked: [] as unknown[], photosWaiting: 0, state: "saved" });
const syncNow = vi.fn();
vi.mock("../../../../platform/store", () => ({
  standing,
  storeTrouble: signal(null),
  freeSentPhotos: async () => 0,
}));
vi.mock("../../../../platform/sync/running", () => ({ syncNow }));
const { Installing } = await import("./installing");

beforeEach(() => {
  standing.value = { waiting: 0, parked: [], photosWaiting: 0, state: "saved" };
});
afterEach(cleanup);

describe("F53 installing with entries unsent", () => {
  it("what waits is sent first; only then the steps are shown", async () => {
    standing.value = { waiting: 2, parked: [], photosWaiting: 1, state: "waiting" };
    render(<Installing />);
    expect(screen.getByText("Send 2 entries and 1 photo first")).toBeTruthy();
    expect(screen.queryByText(/Add to Home Screen/)).toBeNull();
    fireEvent.click(screen.getByRole("button", { name: "Send now" }));
    expect(syncNow).toHaveBeenCalledOnce();
    standing.value = { waiting: 0, parked: [], photosWaiting: 0, state: "saved" };
    await screen.findByText(/Add to Home Screen/);
    expect(screen.queryByText(/first/)).toBeNull();
  });

  it("the browser's own offer is kept for the person's tap, and shown only when all is sent", async () => {
    standing.value = { waiting: 1, parked: [], photosWaiting: 0, state: "waiting" };
    render(<Installing />);
    const prompt = vi.fn(async () => undefined);
    const offer = Object.assign(new Event("beforeinstallprompt", { cancelable: true }), { prompt });
    dispatchEvent(offer);
    expect(offer.defaultPrevented).toBe(true);
    expect(screen.queryByRole("button", { name: "Add to home screen" })).toBeNull();
    standing.value = { ...standing.value, waiting: 0 };
    fireEvent.click(await screen.findByRole("button", { name: "Add to home screen" }));
    expect(prompt).toHaveBeenCalledOnce();
    await waitFor(() => expect(screen.queryByRole("button", { name: /home screen/ })).toBeNull());
  });

  it("what was set aside is named, since it does not move along either", () => {
    standing.value = { waiting: 0, parked: [{}], photosWaiting: 0, state: "saved" };
    render(<Installing />);
    expect(screen.getByText(/need fixing stay in this browser/)).toBeTruthy();
  });
});
