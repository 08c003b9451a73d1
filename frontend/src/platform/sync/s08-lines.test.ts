// @vitest-environment node
import { describe, expect, it } from "vitest";
import { newId } from "../store/core/uuid7";
import { copyOf, counters, fakeHousehold, outboxOf, putBack, shownIn, zone } from "./fake/household";
import { FakeServer } from "./fake/server";

const household = fakeHousehold();
const lines = () => new Set(household.server.pushes.map((push) => push.incarnation));

/** Each op the server took, by how often it changed the book: once, however often it came. */
const applied = () => [...household.server.ops.keys()];

describe("S8 a phone whose numbers do not fit", () => {
  it("F23 restored from a week-old backup: makes a new incarnation and sends again, each op once", async () => {
    const name = newId();
    const first = household.phone(name);
    await first.book.save([zone(newId(), "before the backup")]);
    await first.sync.start();
    await first.book.save([zone(newId(), "waiting in the backup")]);
    const weekOld = await copyOf(first.book);
    await first.book.save([zone(newId(), "after it")]);
    await first.sync.kick();
    first.sync.stop();
    first.book.close();
    await putBack(name, weekOld);
    const restored = household.phone(name);
    const { op } = await restored.book.save([zone(newId(), "new")]);
    await restored.sync.start();
    expect(applied()).toHaveLength(4);
    expect(applied()).toContain(op);
    expect(await outboxOf(restored.book)).toEqual([]);
    expect(await shownIn(restored.book)).toEqual([...household.server.records.keys()].sort());
    expect(lines().size).toBe(2);
  });

  it("F23 restored, and nothing entered since: it counts anew before its next entry takes a used number", async () => {
    const name = newId();
    const first = household.phone(name);
    await first.sync.start();
    const before = await copyOf(first.book);
    await first.book.save([zone(newId(), "after the backup")]);
    await first.sync.kick();
    const used = (await counters(first.book)).incarnation;
    first.sync.stop();
    first.book.close();
    await putBack(name, before);
    const restored = household.phone(name);
    await restored.sync.start();
    expect((await counters(restored.book)).incarnation).not.toBe(used);
    await restored.book.save([zone(newId(), "new")]);
    await restored.sync.kick();
    expect(household.server.records.size).toBe(2);
    expect(await outboxOf(restored.book)).toEqual([]);
  });

  it("F24 cloned: both go on, nothing lost or doubled, and they differ in incarnation and in stamps", async () => {
    const [here, there] = [newId(), newId()];
    const original = household.phone(here);
    await original.book.save([zone(newId(), "shared")]);
    await original.sync.start();
    await putBack(there, await copyOf(original.book));
    const clone = household.phone(there);
    await clone.sync.start();
    for (let at = 0; at < 3; at++) {
      await original.book.save([zone(newId(), `original ${at}`)]);
      await clone.book.save([zone(newId(), `clone ${at}`)]);
      await Promise.all([original.sync.kick(), clone.sync.kick()]);
    }
    await original.sync.kick();
    expect(household.server.records.size).toBe(7);
    const [mine, theirs] = [await counters(original.book), await counters(clone.book)];
    expect(mine.incarnation).not.toBe(theirs.incarnation);
    expect(mine.node).not.toBe(theirs.node);
    for (const { book } of [original, clone]) {
      expect(await outboxOf(book)).toEqual([]);
      expect(await shownIn(book)).toEqual([...household.server.records.keys()].sort());
    }
  });

  it("F03 that lost its last write though it was pushed: a new op takes the used number, and both are kept", async () => {
    const name = newId();
    const first = household.phone(name);
    await first.book.save([zone(newId(), "kept")]);
    await first.sync.start();
    const before = await copyOf(first.book);
    await first.book.save([zone(newId(), "on the disk only in the browser's word")]);
    household.server.faults.push((reached) => {
      reached();
      throw new TypeError("the power went");
    });
    await first.sync.kick();
    first.sync.stop();
    first.book.close();
    await putBack(name, before);
    const after = household.phone(name);
    await after.book.save([zone(newId(), "under the same number")]);
    expect((await after.book.db.outbox.toArray())[0]?.dseq).toBe(2);
    await after.sync.start();
    expect(applied()).toHaveLength(3);
    expect(await outboxOf(after.book)).toEqual([]);
    expect(await shownIn(after.book)).toEqual([...household.server.records.keys()].sort());
    expect(lines().size).toBe(2);
  });

  it("in another tab has counted anew already: a late word about the old line changes nothing", async () => {
    const name = newId();
    const [slow, quick] = [household.phone(name), household.phone(name)];
    await slow.book.save([zone(newId(), "a")]);
    let letGo: () => void = () => undefined;
    household.server.faults.push(async () => {
      await new Promise<void>((go) => {
        letGo = go;
      });
      return Response.json({
        ...{ server_time: "2030-05-01T12:00:00Z", results: [], changes: [], cursor: 0, head: 0 },
        ...{ has_more: false, acked_dseq: 9, fork_detected: true },
      });
    });
    const late = slow.sync.start();
    while (household.server.pushes.length === 0) await new Promise((go) => setImmediate(go));
    household.server.faults.push(() =>
      Response.json({
        ...{ server_time: "2030-05-01T12:00:00Z", results: [], changes: [], cursor: 0, head: 0 },
        ...{ has_more: false, acked_dseq: 1, fork_detected: true },
      }),
    );
    await quick.sync.start();
    const anew = (await counters(quick.book)).incarnation;
    letGo();
    await late;
    expect((await counters(quick.book)).incarnation).toBe(anew);
    expect(household.server.records.size).toBe(1);
  });

  it("whose server forgot its line: counts anew and loses nothing (need_from)", async () => {
    await household.book.save([zone(newId(), "a")]);
    await household.sync.start();
    household.server.lines.clear();
    const id = newId();
    await household.book.save([zone(id, "b")]);
    await household.sync.kick();
    expect(household.server.records.has(`zone:${id}`)).toBe(true);
    expect(await outboxOf(household.book)).toEqual([]);
  });

  it("tells the server how far its answers have arrived", async () => {
    await household.book.save([zone(newId(), "a")]);
    await household.book.save([zone(newId(), "b")]);
    await household.sync.start();
    await household.sync.kick();
    expect(household.server.pushes.map((push) => push.confirmed_dseq)).toEqual([0, 2]);
  });

  it("S11 sends again what a restored server had accepted but the cursor had not passed (F22, P1)", async () => {
    household.server.page = 1;
    for (let at = 0; at < 3; at++) household.server.write("zone", newId());
    const id = newId();
    const { op } = await household.book.save([zone(id, "mine")]);
    household.server.faults.push(
      (reached) => reached(),
      () => {
        throw new TypeError("no network");
      },
    );
    await household.sync.start();
    expect((await household.book.db.outbox.get(op))?.seq).toBe(4);
    household.server = new FakeServer();
    await household.world.runNext();
    expect(household.server.records.has(`zone:${id}`)).toBe(true);
    expect(await outboxOf(household.book)).toEqual([]);
  });
});
