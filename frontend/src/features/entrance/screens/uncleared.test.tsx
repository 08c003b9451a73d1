/** What the door says after a sign-out that storage did not take. */
import { cleanup, render, screen } from "@testing-library/preact";
import { afterEach, expect, it, vi } from "vitest";

const made = vi.hoisted(() => ({ uncleared: undefined as unknown as { value: string[] } }));
vi.mock("../../../platform/session/session", async () => {
  const { signal } = await import("@preact/signals");
  made.uncleared = signal<string[]>([]);
  return {
    session: signal(null),
    leftHere: () => [],
    get uncleared() {
      return made.uncleared;
    },
    signIn: async () => undefined,
    signUp: async () => undefined,
  };
});
vi.mock("../../../platform/sync/running", () => ({ syncNow: () => undefined }));
vi.mock("../../../platform/store", async () => {
  const { signal } = await import("@preact/signals");
  return { standing: signal({ state: "idle" }) };
});

const { default: Entrance } = await import("./index");

afterEach(cleanup);

it.each([
  [["database"], /Your name may still be in it/],
  [["memory"], /Your name may still be in it/],
  [["memory", "database"], /may open your book again without a password/],
])("says what %j kept of who signed out, and what to do", (kept, words) => {
  made.uncleared.value = kept;
  render(<Entrance />);
  const notice = screen.getByRole("alert");
  expect(notice.textContent).toMatch(words);
  expect(notice.textContent).toContain("delete this site’s data in your browser’s settings");
});

it("says nothing where all was let go", () => {
  made.uncleared.value = [];
  render(<Entrance />);
  expect(screen.queryByRole("alert")).toBeNull();
});
