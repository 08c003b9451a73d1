// @vitest-environment node
import { describe, expect, it, vi } from "vitest";
import { newId } from "../store/core/uuid7";
import { ackedOps } from "../store/incoming/refill";
import { fakeHousehold, nameOf, outboxOf, shownIn, zone } from "./fake/household";
import { json } from "./fake/server";

const household = fakeHousehold();
const book = () => household.book;

describe("F44 an app too old to send", () => {
  it("keeps its outbox whole, goes on fetching, says so, and sends by itself once it may", async () => {
    book().rows("zone");
    const { op } = await book().save([zone(newId(), "mine")]);
    household.server.minPushSchema = 99;
    const theirs = household.server.write("zone", newId(), {
      groups: { name: { value: { name: "theirs" }, version: "v" } },
    });
    await household.sync.start();
    expect(await outboxOf(book())).toEqual([op]);
    expect(nameOf(book(), theirs.id)).toBe("theirs");
    await vi.waitFor(() => expect(book().standing.value).toMatchObject({ state: "update", waiting: 1 }));
    const later = household.server.write("zone", newId());
    await household.world.runNext();
    expect(await shownIn(book())).toContain(`zone:${later.id}`);
    household.server.minPushSchema = 1;
    await household.world.runNext();
    expect(await outboxOf(book())).toEqual([]);
    await vi.waitFor(() => expect(book().standing.value).toMatchObject({ state: "saved", waiting: 0 }));
  });

  it("fetches a large book whole as well", async () => {
    household.server.page = 3;
    for (let at = 0; at < 8; at++) household.server.write("zone", newId());
    household.server.head += 5000;
    household.server.minPushSchema = 99;
    await book().save([zone(newId(), "mine")]);
    await household.sync.start();
    expect(await book().db.base.count()).toBe(8);
    expect(await book().db.meta.get("sync")).toMatchObject({ state: "update" });
  });
});

describe("A3 a book that is full", () => {
  it("keeps the outbox whole, goes on fetching, says what to do, and sends once there is room", async () => {
    book().rows("zone");
    const { op } = await book().save([zone(newId(), "mine")]);
    const message = "This household's book is full. Ask whoever runs the server for more room.";
    household.server.always = (reached, { ops }) =>
      ops.length ? json(429, { code: "book_full", message }, { "Retry-After": "60" }) : reached();
    const theirs = household.server.write("zone", newId(), {
      groups: { name: { value: { name: "theirs" }, version: "v" } },
    });
    await household.sync.start();
    expect(await outboxOf(book())).toEqual([op]);
    expect(nameOf(book(), theirs.id)).toBe("theirs");
    expect(await book().db.meta.get("sync")).toMatchObject({ state: "trouble", trouble: message });
    household.server.always = undefined;
    household.world.time += 61_000;
    await household.sync.kick();
    expect(await outboxOf(book())).toEqual([]);
  });
});

describe("F43 a server older than the phone", () => {
  it("sets a kind it does not know aside; the row vanishes by itself once the op comes back applied", async () => {
    household.server.unknownKinds.add("drone");
    const id = newId();
    const { op } = await book().save([{ t: "drone", id, set: { wings: { count: 4 } } }]);
    const { op: entry } = await book().save([
      { t: "entry", id: newId(), body: { kind: "mow" } },
      { t: "drone", id: newId(), body: { of: "another" } },
    ]);
    await household.sync.start();
    await vi.waitFor(() =>
      expect(
        book()
          .standing.value.parked.map((row) => row.op)
          .sort(),
      ).toEqual([op, entry].sort()),
    );
    expect(await outboxOf(book())).toEqual([]);
    household.server.learn();
    await household.sync.kick();
    expect(await book().db.parked.count()).toBe(0);
    expect(await shownIn(book())).toContain(`drone:${id}`);
  });

  it("a set-aside row stays while the record in the book says something else", async () => {
    const id = newId();
    household.server.write("entry", id, { body: { kind: "spread" } });
    const { op } = await book().save([{ t: "entry", id, body: { kind: "mow" } }]);
    household.server.refuses.set(op, { code: "body_differs", message: "It says something else." });
    await household.sync.start();
    expect((await book().db.parked.toArray()).map((row) => row.op)).toEqual([op]);
  });
});

describe("F12 what this build does not know", () => {
  it("in a group it writes anew goes back as it came, and so do groups beside it", async () => {
    const id = newId();
    const name = { value: { name: "Verge", pronounced: ["v", { long: true }] }, version: newId() };
    const mood = { value: { of: "day" }, version: newId() };
    household.server.write("zone", id, { groups: { name, mood } });
    book().rows("zone");
    await household.sync.start();
    const now = book().row("zone", id)?.groups["name"]?.value;
    await book().save([{ t: "zone", id, set: { name: { ...now, name: "Long verge" } } }]);
    await household.sync.kick();
    const kept = household.server.records.get(`zone:${id}`)?.groups;
    expect(kept?.["name"]?.value).toEqual({ name: "Long verge", pronounced: ["v", { long: true }] });
    expect(kept?.["mood"]).toEqual(mood);
    expect(book().row("zone", id)?.groups["mood"]?.value).toEqual({ of: "day" });
  });
});

describe("F56 a number that will never carry its op", () => {
  const toxic = (op: string) => (reached: () => Response, body: { ops: { op: string }[] }) =>
    body.ops.some((one) => one.op === op) ? new Response("", { status: 413 }) : reached();

  it("is answered as an applied hole: later ops flow, nothing of it waits or is kept, the entry is listed", async () => {
    const ops: string[] = [];
    for (let at = 0; at < 3; at++) ops.push((await book().save([zone(newId(), `z${at}`)])).op);
    household.server.always = toxic(ops[1] as string);
    await household.sync.start();
    const holes = [...household.server.ops.values()].filter(({ op }) => op.m.length === 0);
    expect(holes.map(({ op, result }) => [op.dseq, result.s, result.why?.code])).toEqual([
      [2, "applied", "hole"],
    ]);
    expect(await outboxOf(book())).toEqual([]);
    expect(
      (await book().db.acked.toArray())
        .flatMap(ackedOps)
        .map((op) => op.op)
        .sort(),
    ).toEqual([ops[0], ops[2]].sort());
    expect((await book().db.parked.toArray()).map((row) => [row.op, row.dseq])).toEqual([[ops[1], 2]]);
    await vi.waitFor(() => expect(book().standing.value).toMatchObject({ waiting: 0, state: "saved" }));
  });

  it("discarded on the person's tap: gone, its number stays filled, later entries flow", async () => {
    const { op } = await book().save([zone(newId(), "unsendable")]);
    household.server.always = toxic(op);
    await household.sync.start();
    await book().discardParked(op);
    expect(await book().db.parked.count()).toBe(0);
    await book().save([zone(newId(), "after")]);
    await household.sync.kick();
    expect(await outboxOf(book())).toEqual([]);
    expect([...household.server.ops.values()].map((kept) => kept.op.dseq)).toEqual([1, 2]);
  });

  it("a waiting hole is not counted among the entries that wait", async () => {
    const { op } = await book().save([zone(newId(), "unsendable")]);
    household.server.always = toxic(op);
    household.server.faults.push(toxic(op), (reached) => reached());
    household.server.always = (reached, body) =>
      body.ops.some((one) => one.m.length === 0) ? Response.error() : reached();
    await household.sync.start();
    expect(await book().db.outbox.count()).toBe(1);
    await vi.waitFor(() => expect(book().standing.value).toMatchObject({ waiting: 0, state: "offline" }));
  });
});

describe("a set-aside entry", () => {
  async function aside(id: string): Promise<string> {
    const { op } = await book().save([zone(id, "far too long a name")]);
    household.server.refuses.set(op, {
      code: "invalid",
      message: "Too long.",
      fields: { name: "Too long." },
    } as never);
    await household.sync.start();
    return op;
  }

  it("F14 mended and sent again in one transaction: never none of it, never two (F14, P1, P2)", async () => {
    const id = newId();
    const op = await aside(id);
    const failed = vi
      .spyOn(book().db.outbox, "add")
      .mockRejectedValueOnce(new DOMException("", "AbortError"));
    await expect(book().parkedAgain(op, [zone(id, "Verge")])).rejects.toThrow();
    failed.mockRestore();
    expect(await book().db.parked.count()).toBe(1);
    expect(await outboxOf(book())).toEqual([]);
    expect(await book().parkedAgain(op, [zone(id, "Verge")])).toBe(true);
    expect(await book().parkedAgain(op, [zone(id, "Verge")])).toBe(false);
    await household.sync.kick();
    expect(household.server.records.get(`zone:${id}`)?.groups["name"]?.value).toEqual({ name: "Verge" });
    expect(household.server.ops.size).toBe(2);
    expect(await book().db.parked.count()).toBe(0);
  });

  it("refuses a mending that cannot be stored, and stays as it was", async () => {
    const id = newId();
    const op = await aside(id);
    await expect(book().parkedAgain(op, [])).rejects.toThrow("nothing to save");
    expect((await book().db.parked.toArray()).map((row) => row.op)).toEqual([op]);
  });

  it("is in the export, with what was entered and why", async () => {
    const op = await aside(newId());
    const { parked } = (await book().exportAll()) as { parked: { op: string; why: { code: string } }[] };
    expect(parked).toMatchObject([
      { op, why: { code: "invalid" }, m: [{ set: { name: { name: "far too long a name" } } }] },
    ]);
  });
});
