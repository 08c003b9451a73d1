// @vitest-environment node
import { describe, expect, it, vi } from "vitest";
import { fakeHousehold, outboxOf, shownIn, zone } from "../sync/fake/household";
import { type Book, openBook } from "./book";
import { newId } from "./core/uuid7";
import type { Ledger } from "./unsent";

const household = fakeHousehold();

/** What stands beside the store, and outlives it. */
function beside(): Ledger & { noted: number } {
  const ledger = {
    noted: 0,
    read: () => ledger.noted,
    note(waiting: number) {
      ledger.noted = waiting;
    },
  };
  return ledger;
}

const open = (name: string, ledger: Ledger): Book =>
  openBook(name, { now: () => household.world.now(), persist: undefined, ledger });

/** As a browser does that is short of space: the whole database goes, unasked. */
async function evicted(book: Book): Promise<void> {
  await book.db.delete();
  book.close();
}

describe("F36 a store cleared by the browser with entries unsent", () => {
  it("is told: how many are gone, until the person has heeded it; new entries flow", async () => {
    const [name, ledger] = [newId(), beside()];
    const before = open(name, ledger);
    for (let at = 0; at < 3; at++) await before.save([zone(newId(), `z${at}`)]);
    await vi.waitFor(() => expect(ledger.noted).toBe(3));
    await evicted(before);
    const after = open(name, ledger);
    await vi.waitFor(() => expect(after.standing.value).toMatchObject({ gone: 3, waiting: 0 }));
    await after.save([zone(newId(), "new")]);
    await vi.waitFor(() => expect(after.standing.value).toMatchObject({ gone: 3, waiting: 1 }));
    after.close();
    const later = open(name, ledger);
    await vi.waitFor(() => expect(later.standing.value).toMatchObject({ gone: 3, waiting: 1 }));
    await later.db.meta.delete("gone");
    await vi.waitFor(() => expect(later.standing.value.gone).toBeUndefined());
    later.close();
  });

  it("is told though the first thing that happens is a save", async () => {
    const [name, ledger] = [newId(), beside()];
    ledger.noted = 2;
    const book = open(name, ledger);
    await book.save([zone(newId(), "at once")]);
    await vi.waitFor(() => expect(book.standing.value).toMatchObject({ gone: 2, waiting: 1 }));
    book.close();
  });

  it("is not said of a store that is whole, nor of one whose entries were all sent", async () => {
    const [name, ledger] = [newId(), beside()];
    const before = open(name, ledger);
    await before.save([zone(newId(), "a")]);
    await vi.waitFor(() => expect(ledger.noted).toBe(1));
    before.close();
    const whole = open(name, ledger);
    await vi.waitFor(() => expect(whole.standing.value.waiting).toBe(1));
    expect(whole.standing.value.gone).toBeUndefined();
    await whole.db.outbox.bulkDelete((await whole.db.outbox.toArray()).map((op) => op.op));
    await vi.waitFor(() => expect(ledger.noted).toBe(0));
    await evicted(whole);
    const fresh = open(name, ledger);
    await fresh.save([zone(newId(), "b")]);
    await vi.waitFor(() => expect(fresh.standing.value.waiting).toBe(1));
    expect(fresh.standing.value.gone).toBeUndefined();
    fresh.close();
  });
});

describe("F35 a store cleared with nothing waiting", () => {
  it("is fetched again whole, and what is entered next is sent under a line of its own", async () => {
    const name = newId();
    const before = household.phone(name);
    for (let at = 0; at < 5; at++) await before.book.save([zone(newId(), `z${at}`)]);
    await before.sync.start();
    before.sync.stop();
    await evicted(before.book);
    const after = household.phone(name);
    await after.book.save([zone(newId(), "new")]);
    await after.sync.start();
    expect(await shownIn(after.book)).toEqual([...household.server.records.keys()].sort());
    expect(household.server.records.size).toBe(6);
    expect(await outboxOf(after.book)).toEqual([]);
    expect(after.book.standing.value.gone).toBeUndefined();
  });
});
