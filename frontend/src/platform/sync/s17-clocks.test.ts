// @vitest-environment node
import { describe, expect, it } from "vitest";
import { newId } from "../store/core/uuid7";
import { ackedOps } from "../store/incoming/refill";
import { AFTER_SAVE_MS, CAP_MS } from "./backoff";
import { counters, fakeHousehold, outboxOf, shownIn, zone } from "./fake/household";
import { json } from "./fake/server";

const HOUR = 60 * 60_000;
const DAY = 24 * HOUR;
const household = fakeHousehold();
const book = () => household.book;
const stamps = async () => (await book().db.outbox.orderBy("dseq").toArray()).map((op) => op.hlc);

describe("the phone's clock", () => {
  it.each([
    ["F25 3 years back", -3 * 365 * DAY],
    ["F26 2 days ahead, then mended", 2 * DAY],
    ["F27 an hour on and back, as a time zone or daylight saving set by hand", HOUR],
  ])("%s: entries keep their order, are sent, and the next tries are no further off", async (_name, jump) => {
    await household.sync.start();
    const offsets = [0, jump, jump, 0, 0];
    const real = household.world.time;
    for (const [at, offset] of offsets.entries()) {
      household.world.time = real + at * 1000 + offset;
      await book().save([zone(newId(), `z${at}`)]);
    }
    expect(await stamps()).toEqual([...(await stamps())].sort());
    await household.sync.kick();
    expect(await outboxOf(book())).toEqual([]);
    expect(household.world.nextIn()).toBeLessThanOrEqual(CAP_MS);
  });

  it("F26 a stamp made 2 days ahead does not keep later ones of a mended clock from sorting after it", async () => {
    const real = household.world.time;
    household.world.time = real + 2 * DAY;
    await book().save([zone(newId(), "ahead")]);
    household.world.time = real;
    await book().save([zone(newId(), "mended")]);
    const [ahead, mended] = await stamps();
    expect(mended && ahead && mended > ahead).toBe(true);
  });

  it("F27 jumps ahead while a try is planned: a save is still followed within 2 seconds", async () => {
    household.server.always = () => Response.error();
    await household.sync.start();
    for (let at = 0; at < 12; at++) await household.world.runNext();
    expect(household.world.nextIn()).toBeGreaterThan(60_000);
    household.world.time += 3 * 365 * DAY;
    await book().save([zone(newId(), "Verge")]);
    await expect.poll(() => household.world.nextIn()).toBe(AFTER_SAVE_MS);
  });

  it("F26 set back during a Retry-After: the wait is never longer than the server asked for and an hour", async () => {
    household.server.faults.push(() => json(503, {}, { "Retry-After": "90" }));
    await household.sync.start();
    const tries = household.server.pushes.length;
    household.world.time -= 365 * DAY;
    await household.sync.kick();
    expect(household.server.pushes.length).toBeGreaterThan(tries);
  });
});

describe("F17 401 for ten days", () => {
  it("the outbox grows, nothing is lost, tries go on, and after the sign-in all of it is sent", async () => {
    await household.sync.start();
    household.server.always = () => json(401, { code: "signed_out", message: "Sign in to go on." });
    for (let hour = 0; hour < 240; hour++) {
      if (hour % 24 === 0) await book().save([zone(newId(), `day ${hour / 24}`)]);
      // In a pocket most of the time: the page sleeps, and its timer runs late.
      household.world.time += HOUR;
      const before = household.server.pushes.length;
      await household.world.runNext();
      expect(household.server.pushes.length).toBe(before + 1);
    }
    expect(await outboxOf(book())).toHaveLength(10);
    expect(await book().db.meta.get("sync")).toMatchObject({ state: "sign_in" });
    household.server.always = undefined;
    await household.world.runNext();
    expect(await outboxOf(book())).toEqual([]);
    expect(household.server.records.size).toBe(10);
  });
});

describe("F33 thirteen months offline with 300 entries", () => {
  it("all arrive in order, once, and what the others wrote comes in", async () => {
    await household.sync.start();
    const ops: string[] = [];
    for (let at = 0; at < 300; at++) {
      household.world.time += 31.6 * HOUR;
      ops.push((await book().save([{ t: "entry", id: newId(), body: { kind: "mow", at } }])).op);
    }
    for (let at = 0; at < 50; at++) household.server.write("entry", newId(), { body: { kind: "spread" } });
    household.server.clock = () => household.world.time;
    await household.sync.kick();
    expect([...household.server.ops.keys()]).toEqual(ops);
    expect(await outboxOf(book())).toEqual([]);
    expect(await shownIn(book())).toEqual([...household.server.records.keys()].sort());
    expect((await counters(book())).cursor).toBe(household.server.head);
    expect((await book().db.acked.toArray()).flatMap(ackedOps)).toHaveLength(300);
  });
});
