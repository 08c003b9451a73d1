// @vitest-environment happy-dom
import { computed } from "@preact/signals";
import { afterEach, beforeEach, expect, it, vi } from "vitest";

beforeEach(() => {
  vi.useFakeTimers({ now: new Date(2026, 4, 14, 23, 59, 0) });
  vi.resetModules();
});
afterEach(() => {
  vi.useRealTimers();
});

it("what reads the present moment is worked out anew when the day turns", async () => {
  const { followDays, nowHere, today } = await import("./clock");
  followDays();
  const said = computed(() => `${today()} ${nowHere().slice(0, 10)}`);
  const now = computed(() => nowHere().slice(0, 10));
  expect([said.value, now.value]).toEqual(["2026-05-14 2026-05-14", "2026-05-14"]);
  vi.advanceTimersByTime(2 * 60_000);
  expect([said.value, now.value]).toEqual(["2026-05-15 2026-05-15", "2026-05-15"]);
});
