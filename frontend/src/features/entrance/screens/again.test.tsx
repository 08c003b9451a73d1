import { signal } from "@preact/signals";
import { cleanup, render, screen } from "@testing-library/preact";
import { afterEach, expect, it, vi } from "vitest";

const made = vi.hoisted(() => ({ state: undefined as unknown as { value: { state: string } } }));
vi.mock("../../../platform/session/session", async () => {
  const { signal } = await import("@preact/signals");
  return {
    session: signal({ person: { email: "rowan@example.org" } }),
    leftHere: () => [],
    uncleared: signal([]),
    signIn: async () => undefined,
    signUp: async () => undefined,
  };
});
vi.mock("../../../platform/sync/running", () => ({ syncNow: () => undefined }));
vi.mock("../../../platform/store", () => ({
  get standing() {
    return made.state;
  },
}));

const { default: Entrance } = await import("./index");

afterEach(cleanup);

it("F17 keeps the door open for who signs in again while a round begins and ends", async () => {
  made.state = signal({ state: "sign_in" });
  history.replaceState(null, "", "/enter");
  render(<Entrance />);
  const password = await screen.findByLabelText("Password");
  for (const state of ["sending", "offline", "sign_in"]) {
    made.state.value = { state };
    await new Promise((done) => requestAnimationFrame(done));
    expect([location.pathname, screen.queryByLabelText("Password")]).toEqual(["/enter", password]);
  }
});
