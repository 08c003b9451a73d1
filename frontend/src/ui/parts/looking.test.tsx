import { signal } from "@preact/signals";
import { act, cleanup, fireEvent, render, screen } from "@testing-library/preact";
import { afterEach, expect, it, vi } from "vitest";

const now = vi.hoisted(() => ({}) as Record<"looking" | "long" | "session", { value: unknown }>);
vi.mock("../../platform/session/session", async (original) => {
  const { signal } = await import("@preact/signals");
  Object.assign(now, { looking: signal(true), long: signal(false), session: signal(null) });
  return {
    ...(await original<typeof import("../../platform/session/session")>()),
    looking: now.looking,
    lookingLong: now.long,
    session: now.session,
    stopLooking: () => {
      now.looking.value = false;
    },
  };
});
vi.mock("../../platform/sw/register", () => ({
  newBuild: signal(false),
  switchedOff: signal(false),
  takeNewBuild: () => undefined,
}));
vi.mock("../../features/today/screens/index", () => ({ default: () => <h1>Today</h1> }));
vi.mock("../../features/entrance/screens/index", () => ({ default: () => <h1>The door</h1> }));
vi.mock("../../features/clash/late", () => ({ LateClashLine: () => null, LateClashCards: () => null }));
vi.mock("../frame/place-bar", () => ({ PlaceBar: () => null }));
vi.mock("../frame/room-notice", () => ({ RoomNotice: () => null }));

const { App } = await import("../../app/app");

afterEach(cleanup);

it.each(["/", "/enter"])("a slow phone shows no door at %s until the person asks for it", async (path) => {
  history.replaceState(null, "", path);
  now.looking.value = true;
  now.long.value = false;
  render(<App />);
  act(() => {
    now.long.value = true;
  });
  expect(screen.getByRole("status").textContent).toMatch(/^Opening your book\. /);
  expect([location.pathname, screen.queryByText("The door")]).toEqual([path, null]);
  fireEvent.click(screen.getByRole("button", { name: "Sign in" }));
  expect(await screen.findByText("The door")).toBeTruthy();
});
