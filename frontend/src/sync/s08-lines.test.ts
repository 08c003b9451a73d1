// @vitest-environment node
import { describe, expect, it } from "vitest";
import { newId } from "../store/core/uuid7";
import type { MetaRow } from "../store/db";
import { fakeHousehold, outboxOf, zone } from "./fake-household";
import { FakeServer } from "./fake-server";

const household = fakeHousehold();

describe("S8 a phone whose numbers do not fit", () => {
  it("restored from an old backup: makes a new incarnation and sends again, each op once (F23, F24)", async () => {
    const name = newId();
    const first = household.phone(name);
    await first.sync.start();
    const weekOld = (await first.book.db.meta.toArray()) as MetaRow[];
    await first.book.save([zone(newId(), "old")]);
    await first.sync.kick();
    first.sync.stop();
    await first.book.db.delete({ disableAutoOpen: false });
    await first.book.db.meta.bulkPut(weekOld);
    first.book.close();
    const restored = household.phone(name);
    const id = newId();
    await restored.book.save([zone(id, "new")]);
    await restored.sync.start();
    expect(household.server.records.has(`zone:${id}`)).toBe(true);
    expect(household.server.records.size).toBe(2);
    expect(await outboxOf(restored.book)).toEqual([]);
    expect(new Set(household.server.pushes.map((push) => push.incarnation)).size).toBe(2);
  });

  it("whose household.server forgot its line: counts anew and loses nothing (need_from)", async () => {
    await household.book.save([zone(newId(), "a")]);
    await household.sync.start();
    household.server.lines.clear();
    const id = newId();
    await household.book.save([zone(id, "b")]);
    await household.sync.kick();
    expect(household.server.records.has(`zone:${id}`)).toBe(true);
    expect(await outboxOf(household.book)).toEqual([]);
  });

  it("whose household.server was restored from a backup: pulls from the start, keeps and sends its outbox (F22, P9)", async () => {
    const [kept, later] = [newId(), newId()];
    await household.book.save([zone(kept, "a")]);
    await household.sync.start();
    household.server = new FakeServer();
    await household.book.save([zone(later, "b")]);
    await household.sync.kick();
    expect(household.server.records.has(`zone:${later}`)).toBe(true);
    expect((await household.book.db.base.get(`zone:${kept}`))?.record.groups["name"]?.value).toEqual({
      name: "a",
    });
  });

  it("sends again what a restored server had accepted but the phone still holds (F22, P1)", async () => {
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

  it("tells the server how far its answers have arrived", async () => {
    await household.book.save([zone(newId(), "a")]);
    await household.book.save([zone(newId(), "b")]);
    await household.sync.start();
    await household.sync.kick();
    expect(household.server.pushes.map((push) => push.confirmed_dseq)).toEqual([0, 2]);
  });
});
