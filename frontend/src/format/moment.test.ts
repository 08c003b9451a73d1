import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";

import { isoMoment } from "./index";
import { localOfMoment, momentMoved, zoneElsewhere } from "./moment";

/** An offset this phone does not have on that day, whatever zone the test runs in. */
const AT = new Date("2026-05-14T16:05:00Z");
const elsewhere = isoMoment(AT).endsWith("+09:00") ? "-07:00" : "+09:00";
const AWAY = `2026-05-15T01:05:30${elsewhere}`;

beforeEach(() => {
  vi.useFakeTimers({ now: new Date("2026-05-20T12:00:00Z") });
});
afterEach(() => {
  vi.useRealTimers();
});

describe("the moment of an entry written in another time zone", () => {
  it("stays the same instant, to the second, where nothing is changed", () => {
    expect(momentMoved(localOfMoment(AWAY), AWAY)).toBe(AWAY);
  });

  it("is moved by the clock of the place it was done, and by what was changed alone", () => {
    const moved = momentMoved("2026-05-15T02:05", AWAY) ?? "";
    expect(moved).toBe(`2026-05-15T02:05:00${elsewhere}`);
    expect(Date.parse(moved) - Date.parse(AWAY)).toBe(59.5 * 60_000);
    expect(zoneElsewhere(AWAY)).toContain(`UTC${elsewhere}`);
  });

  it("of this place follows this phone's clock", () => {
    const here = isoMoment(AT);
    const text = localOfMoment(here).replace(/T\d\d/, "T09");
    expect(momentMoved(text, here)).toBe(isoMoment(new Date(text)));
    expect(zoneElsewhere(here)).toBe("");
    expect(zoneElsewhere("2026-05-14T16:05:00Z")).toBe("");
  });

  it("is nothing where the input holds none", () => {
    expect(momentMoved("", AWAY)).toBeUndefined();
    expect(momentMoved("2026-05-15T02:05", "some day")).toBe(isoMoment(new Date("2026-05-15T02:05")));
  });
});
