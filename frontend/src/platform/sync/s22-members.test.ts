// @vitest-environment node
import { describe, expect, it, vi } from "vitest";
import { bookName } from "../store";
import { newId } from "../store/core/uuid7";
import { startRepull } from "../store/incoming/whole";
import { counters, fakeHousehold, outboxOf, shownIn, zone } from "./fake/household";
import { json } from "./fake/server";

const household = fakeHousehold();
const book = () => household.book;
const registrations = () => household.server.asked.filter((asked) => asked.startsWith("devices")).length;

describe("S22 F48 a member removed with five entries unsent", () => {
  it("hands them over: each is set aside as held, listed, and the book stays readable", async () => {
    household.server.write("zone", newId());
    await household.sync.start();
    const before = await shownIn(book());
    const ops: string[] = [];
    for (let at = 0; at < 5; at++) ops.push((await book().save([zone(newId(), `z${at}`)])).op);
    const { cursor } = await counters(book());
    household.server.former = true;
    await household.sync.kick();
    const parked = await book().db.parked.toArray();
    expect(parked.map((row) => [row.op, row.where, row.why.code]).sort()).toEqual(
      ops.map((op) => [op, "parked", "pending_review"]).sort(),
    );
    expect(await outboxOf(book())).toEqual([]);
    expect(await shownIn(book())).toEqual(before);
    expect((await counters(book())).cursor).toBe(cursor);
    await household.world.runNext();
    await vi.waitFor(() => expect(book().standing.value.trouble).toContain("does not open this household"));
    expect(await shownIn(book())).toEqual(before);
  });

  it("and what is entered after that is handed over too", async () => {
    await household.sync.start();
    household.server.former = true;
    await household.sync.kick();
    await household.world.runNext();
    const { op } = await book().save([zone(newId(), "afterwards")]);
    await household.world.runNext();
    expect((await book().db.parked.toArray()).map((row) => [row.op, row.why.code])).toEqual([
      [op, "pending_review"],
    ]);
  });

  it("waits, nothing lost, where the answer is lost on the way (F4)", async () => {
    await household.sync.start();
    const { op } = await book().save([zone(newId(), "z")]);
    household.server.former = true;
    household.server.faults.push((reached) => {
      reached();
      throw new TypeError("connection reset");
    });
    await household.sync.kick();
    expect(await outboxOf(book())).toEqual([op]);
    await household.world.runNext();
    expect((await book().db.parked.toArray()).map((row) => row.op)).toEqual([op]);
  });
});

describe("S22 F48 a member removed while the book is fetched anew", () => {
  it("keeps the rows that have not come yet", async () => {
    const record = household.server.write("zone", newId());
    await household.sync.start();
    await startRepull(book().db);
    await book().save([zone(newId(), "unsent")]);
    household.server.former = true;
    await household.sync.kick();
    expect(await shownIn(book())).toEqual([`zone:${record.id}`]);
  });
});

describe("F49 removed and invited again", () => {
  it("gets a new device, begins a new line, and everything entered meanwhile arrives once", async () => {
    await book().save([zone(newId(), "before")]);
    await household.sync.start();
    const old = await counters(book());
    household.server.former = true;
    await household.sync.kick();
    const { op } = await book().save([zone(newId(), "pending_review")]);
    await household.world.runNext();
    household.server.former = false;
    household.server.closedDevices.add(old.device ?? "");
    const id = newId();
    await book().save([zone(id, "after")]);
    await household.world.runNext();
    await household.world.runNext();
    const now = await counters(book());
    expect(now.device).not.toBe(old.device);
    expect(now.incarnation).not.toBe(old.incarnation);
    // What the server has acknowledged is its own again: it need not be sent a second time.
    const sent = household.server.pushes.flatMap((push) => push.ops.map((one) => one.m[0]?.set?.["name"]));
    expect(sent.filter((set) => (set as { name: string }).name === "before")).toHaveLength(1);
    expect(await outboxOf(book())).toEqual([]);
    expect(household.server.records.has(`zone:${id}`)).toBe(true);
    expect(household.server.records.size).toBe(2);
    expect((await book().db.parked.toArray()).map((row) => row.op)).toEqual([op]);
    expect(await book().parkedAgain(op)).toBe(true);
    await household.sync.kick();
    expect(household.server.records.size).toBe(3);
  });

  it("what the keeper accepted meanwhile is set aside no longer", async () => {
    await household.sync.start();
    const id = newId();
    const { op } = await book().save([zone(id, "pending_review")]);
    household.server.former = true;
    await household.sync.kick();
    expect(await book().db.parked.count()).toBe(1);
    household.server.former = false;
    household.server.write("zone", id, {
      groups: { name: { value: { name: "pending_review" }, version: op } },
    });
    await household.sync.kick();
    expect(await book().db.parked.count()).toBe(0);
  });
});

describe("a device the server does not know", () => {
  it("is not asked for again and again where a new id does not help", async () => {
    await household.sync.start();
    const before = registrations();
    household.server.always = () => json(404, { code: "not_found", message: "There is nothing here." });
    for (let at = 0; at < 6; at++) await household.world.runNext();
    expect(registrations() - before).toBe(1);
  });

  it("F22 is asked for once more after an hour: a server can be restored twice", async () => {
    await household.sync.start();
    const before = registrations();
    household.server.always = () => json(404, { code: "not_found", message: "There is nothing here." });
    for (let at = 0; at < 3; at++) await household.world.runNext();
    household.world.time += 2 * 60 * 60_000;
    for (let at = 0; at < 3; at++) await household.world.runNext();
    expect(registrations() - before).toBe(2);
  });
});

describe("F18 another member signs in on the phone", () => {
  it("while this book is open: nothing more is sent, no device is asked for, until this person is back", async () => {
    await household.sync.start();
    const before = registrations();
    const { op } = await book().save([zone(newId(), "mine")]);
    // The cookie is another person's now: the server does not know this device as theirs.
    household.who = "other";
    household.server.always = () => json(404, { code: "not_found", message: "There is nothing here." });
    await household.sync.kick();
    household.server.always = undefined;
    const pushes = household.server.pushes.length;
    for (let at = 0; at < 3; at++) await household.world.runNext();
    expect(household.server.pushes.length).toBe(pushes);
    expect(registrations()).toBe(before);
    expect(await book().db.meta.get("sync")).toMatchObject({ state: "sign_in" });
    expect(await outboxOf(book())).toEqual([op]);
    household.who = "same";
    await household.world.runNext();
    expect(await outboxOf(book())).toEqual([]);
  });

  it("has a store of their own: each sends what is theirs and nothing else", async () => {
    const [mine, theirs] = [household.phone(bookName("p1", "h1")), household.phone(bookName("p2", "h1"))];
    const { op: a } = await mine.book.save([zone(newId(), "mine")]);
    const { op: b } = await theirs.book.save([zone(newId(), "theirs")]);
    await theirs.sync.start();
    expect(household.server.pushes.flatMap((push) => push.ops.map((op) => op.op))).toEqual([b]);
    expect(await outboxOf(mine.book)).toEqual([a]);
  });
});
