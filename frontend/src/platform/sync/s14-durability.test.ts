// @vitest-environment node
import { describe, expect, it, vi } from "vitest";
import { newId } from "../store/core/uuid7";
import { reincarnate, rewind } from "../store/lines";
import { fakeHousehold, zone } from "./fake/household";

const household = fakeHousehold();

/** How each transaction that writes is asked to come to rest, by the tables it is over. To be called before they are opened. */
function watchWrites(): Map<string, Set<string | undefined>> {
  const found = new Map<string, Set<string | undefined>>();
  const begin = IDBDatabase.prototype.transaction;
  vi.spyOn(IDBDatabase.prototype, "transaction").mockImplementation(function (
    this: IDBDatabase,
    tables,
    mode,
    how,
  ) {
    const key = [tables].flat().sort().join();
    if (mode === "readwrite") found.set(key, (found.get(key) ?? new Set()).add(how?.durability));
    return begin.call(this, tables, mode, how);
  });
  return found;
}

const ANSWER = "acked,base,live,meta,outbox,parked";

describe("S14 what waits for the disk", () => {
  it("an answer does not: the server has all of it, and says it again where a power cut took it", async () => {
    const how = watchWrites();
    await household.book.save([zone(newId(), "Verge")]);
    await household.sync.start();
    expect([...(how.get(ANSWER) ?? [])]).toEqual(["relaxed"]);
  });

  it("what a person saved, what has left and how ops are counted do", async () => {
    const how = watchWrites();
    const { op } = await household.book.save([zone(newId(), "Verge")]);
    await household.book.withdraw(op);
    await household.book.save([zone(newId(), "Strip")]);
    await household.sync.start();
    await household.book.save([zone(newId(), "Bank")]);
    await rewind(household.book.db, 2, "another");
    await reincarnate(household.book.db, "another");
    how.delete(ANSWER);
    expect([...how.keys()]).toContain("live,meta,outbox");
    expect([...how.keys()]).toContain("meta,outbox");
    expect([...new Set([...how.values()].flatMap((said) => [...said]))]).toEqual(["strict"]);
  });
});
