// @vitest-environment node
import vectors from "@fixtures/sync/digest.json";
import { describe, expect, it, vi } from "vitest";
import { bucketOf, digestText } from "../store/core/digest";
import { newId } from "../store/core/uuid7";
import { counters, fakeHousehold, outboxOf, shownIn, zone } from "./fake/household";

const household = fakeHousehold();
const book = () => household.book;
const onServer = () => [...household.server.records.keys()].sort();
const digests = () => household.server.asked.filter((asked) => asked.startsWith("digest"));
const repulls = () => household.server.pushes.filter((push) => push.cursor === 0).length;

async function filled(count: number): Promise<string[]> {
  const ids = Array.from(
    { length: count },
    () => household.server.write("entry", newId(), { body: { kind: "mow" } }).id,
  );
  await household.sync.start();
  return ids;
}

/** The app is started again: then the table is counted, and what differs is found. */
async function startedAgain() {
  household.sync.stop();
  Object.assign(household, household.phone(book().name));
  await household.sync.start();
}

describe("P4 buckets", () => {
  it.each(vectors.bucket_of)("$t $id is looked for where the server looks", ({ t, id, bucket }) => {
    expect(bucketOf(t, id)).toBe(bucket);
  });
});

describe("F52 what differs is replaced", () => {
  it("one row silently missing: found, fetched by its bucket alone, the outbox whole (P9)", async () => {
    const ids = await filled(300);
    const before = repulls();
    await book().db.base.delete(`entry:${ids[7]}`);
    await startedAgain();
    expect(await shownIn(book())).toEqual(onServer());
    expect(await book().db.base.get(`entry:${ids[7]}`)).toBeDefined();
    expect(repulls()).toBe(before);
    expect(digests().length).toBeGreaterThanOrEqual(2);
    expect(digests().length).toBeLessThanOrEqual(4);
    expect(digestText((await counters(book())).digest)).toBe(household.server.digest());
    expect((await book().db.meta.get("sync")) as object).toMatchObject({ state: "ok" });
  });

  it("an older copy of a record is replaced, a record the server does not hold goes, unsent entries stay", async () => {
    const ids = await filled(5);
    const key = `entry:${ids[2]}`;
    const kept = await book().db.base.get(key);
    if (!kept) throw new Error("not there");
    await book().db.base.put({ ...kept, record: { ...kept.record, seq: 0, groups: {} } });
    const stray = { seq: 2, t: "zone", id: newId(), groups: {} };
    await book().db.base.put({ key: `zone:${stray.id}`, record: stray, era: 0 });
    await startedAgain();
    expect((await book().db.base.get(key))?.record).toEqual(household.server.records.get(key));
    expect(await book().db.base.get(`zone:${stray.id}`)).toBeUndefined();
    const { op } = await book().save([zone(newId(), "mine")]);
    household.server.always = () => Response.error();
    await household.sync.kick();
    expect(await outboxOf(book())).toEqual([op]);
  });

  it("a row exchanged for another is found within a day, though the number of rows is right", async () => {
    const ids = await filled(5);
    const kept = await book().db.base.get(`entry:${ids[1]}`);
    await book().db.base.delete(`entry:${ids[1]}`);
    await book().db.base.put({
      key: "entry:x",
      record: { ...kept?.record, id: "x", seq: 1 } as never,
      era: 0,
    });
    household.world.time += 25 * 60 * 60_000;
    await startedAgain();
    expect((await book().db.base.toArray()).map((row) => row.key).sort()).toEqual(onServer());
  });

  it("F26 and within a day also after the clock was set back", async () => {
    household.world.time += 2 * 24 * 60 * 60_000;
    const ids = await filled(5);
    household.world.time -= 2 * 24 * 60 * 60_000;
    const kept = await book().db.base.get(`entry:${ids[1]}`);
    await book().db.base.delete(`entry:${ids[1]}`);
    await book().db.base.put({
      key: "entry:x",
      record: { ...kept?.record, id: "x", seq: 1 } as never,
      era: 0,
    });
    await startedAgain();
    expect((await book().db.base.toArray()).map((row) => row.key).sort()).toEqual(onServer());
  });

  it("everything is fetched again where the server knows no buckets, rows readable meanwhile (P9)", async () => {
    const ids = await filled(5);
    await book().db.base.delete(`entry:${ids[2]}`);
    const fetch = household.server.fetch;
    const shown: number[] = [];
    Object.assign(household.server, {
      fetch: async (address: string, init?: RequestInit) => {
        shown.push((await shownIn(book())).length);
        if (String(address).includes("/digest")) return Response.json({ code: "not_found" }, { status: 404 });
        return fetch(address, init);
      },
    });
    const before = repulls();
    await startedAgain();
    expect(repulls()).toBe(before + 1);
    expect(Math.min(...shown)).toBe(5);
    expect((await book().db.base.toArray()).map((row) => row.key).sort()).toEqual(onServer());
  });

  it("that still differs after that is told as trouble, not fetched for ever", async () => {
    household.server.write("zone", newId());
    vi.spyOn(household.server, "digest").mockReturnValue("00000000ffffffff");
    await household.sync.start();
    expect(await book().db.meta.get("sync")).toMatchObject({ state: "trouble" });
    const before = household.server.pushes.length;
    await household.world.runNext();
    expect(household.server.pushes.length - before).toBe(1);
    vi.restoreAllMocks();
    await household.world.runNext();
    expect(await book().db.meta.get("sync")).toMatchObject({ state: "ok" });
  });

  it("a cut on the way means later, and the next try mends", async () => {
    const ids = await filled(5);
    await book().db.base.delete(`entry:${ids[2]}`);
    const fetch = household.server.fetch;
    let cut = true;
    Object.assign(household.server, {
      fetch: async (address: string, init?: RequestInit) =>
        cut && String(address).includes("/digest") ? Response.error() : fetch(address, init),
    });
    await startedAgain();
    expect(await book().db.meta.get("sync")).toMatchObject({ state: "offline" });
    cut = false;
    await household.world.runNext();
    expect((await book().db.base.toArray()).map((row) => row.key).sort()).toEqual(onServer());
  });
});
