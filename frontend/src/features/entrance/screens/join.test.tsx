import { cleanup, render, screen, waitFor } from "@testing-library/preact";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { Route } from "wouter-preact";

vi.mock("../../../platform/session/session", async () => {
  const { signal } = await import("@preact/signals");
  return {
    session: signal(null),
    leftHere: () => [],
    uncleared: signal([]),
    join: async () => undefined,
    signIn: async () => undefined,
  };
});
vi.mock("../../../platform/sync/running", () => ({ syncNow: () => undefined }));
vi.mock("../../../platform/store", async () => {
  const { signal } = await import("@preact/signals");
  return { standing: signal({ state: "idle" }) };
});

const { default: Entrance } = await import("./index");
const TOKEN = "aZ_9-token";
const asked: [string, string, unknown][] = [];

beforeEach(() => {
  asked.length = 0;
  vi.stubGlobal("fetch", async (path: string, { method, body }: RequestInit) => {
    asked.push([method ?? "GET", path, JSON.parse(String(body))]);
    const offer = { household_name: "Alder Bend", expires_at: "2026-12-01T12:00:00Z" };
    return new Response(JSON.stringify(offer), { headers: { "Content-Type": "application/json" } });
  });
});
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

it.each([`/join/#${TOKEN}`, `/join#${TOKEN}`, `/join/${TOKEN}`])(
  "asks by a body, never by an address, what %s is for",
  async (link) => {
    history.replaceState(null, "", link);
    render(<Route path="/join/:token?" component={Entrance} />);
    await screen.findByRole("heading", { name: "Join Alder Bend" });
    expect(asked).toEqual([["POST", "/api/v1/accounts/invitation", { token: TOKEN }]]);
    await waitFor(() => expect(location.hash).toBe(`#${TOKEN}`));
    expect(location.pathname).not.toContain(TOKEN);
  },
);
