// @vitest-environment node
import { describe, expect, it, vi } from "vitest";
import { newId } from "../store/core/uuid7";
import { CAP_MS } from "./backoff";
import { fakeHousehold, outboxOf, zone } from "./fake/household";
import { json } from "./fake/server";

const household = fakeHousehold();
const state = async () =>
  (await household.book.db.meta.get("sync")) as { state: string; failures: number } | undefined;

describe("S17 trying again", () => {
  it("goes on for ever, at most 5 minutes apart, though nobody types (F21)", async () => {
    await household.book.save([zone(newId(), "Verge")]);
    household.server.always = () => Response.error();
    await household.sync.start();
    const pauses: number[] = [];
    for (let at = 0; at < 40; at++) {
      pauses.push(household.world.nextIn() ?? Number.NaN);
      await household.world.runNext();
    }
    expect(Math.max(...pauses)).toBeLessThanOrEqual(CAP_MS);
    expect(pauses.at(-1)).toBeGreaterThan(pauses[0] ?? Number.NaN);
    household.server.always = undefined;
    await household.world.runNext();
    expect(await outboxOf(household.book)).toEqual([]);
  });

  it("waits as long as the server asks, waking or not (F20)", async () => {
    household.server.faults.push(() =>
      json(503, { code: "busy", message: "Busy." }, { "Retry-After": "90" }),
    );
    await household.sync.start();
    const tries = household.server.pushes.length;
    expect(household.world.nextIn()).toBe(90_000);
    await household.world.wake();
    expect(household.server.pushes.length).toBe(tries);
    await household.world.runNext();
    expect(household.server.pushes.length).toBeGreaterThan(tries);
  });

  it("tries when the page becomes visible or the phone seems online, whatever it thought before", async () => {
    household.server.always = () => Response.error();
    await household.book.save([zone(newId(), "Verge")]);
    await household.sync.start();
    household.server.always = undefined;
    await household.world.wake();
    expect(await outboxOf(household.book)).toEqual([]);
  });

  it("follows a save within 2 seconds", async () => {
    await household.sync.start();
    await household.book.save([zone(newId(), "Verge")]);
    await vi.waitFor(() => expect(household.world.nextIn()).toBe(2000));
    await household.world.runNext();
    expect(await outboxOf(household.book)).toEqual([]);
  });

  it("sends nothing under another person's sign-in (F18)", async () => {
    household.who = "other";
    await household.book.save([zone(newId(), "Verge")]);
    await household.sync.start();
    expect(household.server.pushes).toEqual([]);
    expect(await state()).toMatchObject({ state: "sign_in" });
    household.who = "same";
    await household.world.runNext();
    expect(await outboxOf(household.book)).toEqual([]);
  });

  it("asks nothing more once it was stopped, though it was just reading what waits (F18, P10)", async () => {
    await household.sync.start();
    await household.book.save([zone(newId(), "Verge")]);
    const pushed = household.server.pushes.length;
    const { db } = household.book;
    const begin = db.transaction.bind(db) as (...given: unknown[]) => unknown;
    vi.spyOn(db, "transaction").mockImplementation(((...given: unknown[]) => {
      if (given[0] === "rw") household.sync.stop();
      return begin(...given);
    }) as typeof db.transaction);
    await household.sync.kick();
    expect(household.server.pushes.slice(pushed)).toEqual([]);
  });

  it("is not held back by a clock that was set a year back (F26)", async () => {
    household.server.faults.push(() => json(503, {}, { "Retry-After": "90" }));
    await household.sync.start();
    household.world.time -= 365 * 86_400_000;
    await household.sync.kick();
    expect(await state()).toMatchObject({ state: "ok" });
  });
});
