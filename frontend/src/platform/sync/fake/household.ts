/** For tests only: phones around one fake server, set up anew for each test. */
import { afterEach, beforeEach } from "vitest";
import { type Book, openBook } from "../../store/book";
import { newId } from "../../store/core/uuid7";
import { BookDb } from "../../store/db";
import { request } from "../http";
import { createSync, type Sync } from "../index";
import { FakeServer } from "./server";
import { FakeWorld } from "./world";

export interface Phone {
  book: Book;
  sync: Sync;
}

export interface FakeHousehold extends Phone {
  server: FakeServer;
  world: FakeWorld;
  /** Whose cookie the phones hold. */
  who: "same" | "other" | "unknown";
  /** One more phone, or one more tab of the phone with this store. */
  phone(name?: string): Phone;
}

/** To be called once in a test file; the object is filled afresh before each test. */
export function fakeHousehold(): FakeHousehold {
  const household = {} as FakeHousehold;
  let closing: (() => void)[] = [];
  household.phone = (name = newId()) => {
    const book = openBook(name, { now: () => household.world.now(), persist: undefined });
    const fetch: typeof globalThis.fetch = (...args) => household.server.fetch(...args);
    const sync = createSync({
      book,
      household: "h1",
      confirm: async () => household.who,
      send: (method, path, body) => request(method, path, body, { fetch, timeoutMs: 60_000 }),
      world: household.world,
    });
    closing.push(() => sync.stop(), book.close);
    return { book, sync };
  };
  beforeEach(() => {
    household.server = new FakeServer();
    household.world = new FakeWorld();
    household.who = "same";
    Object.assign(household, household.phone());
  });
  afterEach(() => {
    for (const close of closing) close();
    closing = [];
  });
  return household;
}

export const zone = (id: string, name: string) => ({ t: "zone", id, set: { name: { name } } });

export const outboxOf = async (book: Book): Promise<string[]> =>
  (await book.db.outbox.orderBy("dseq").toArray()).map((op) => op.op);

export const nameOf = (book: Book, id: string): string | undefined =>
  book.row("zone", id)?.groups["name"]?.value?.name;

/** Everything in a phone's tables, as a backup of the phone holds it. */
export type Copy = Map<string, unknown[]>;

export async function copyOf(book: Book): Promise<Copy> {
  const copy: Copy = new Map();
  for (const table of book.db.tables) copy.set(table.name, await table.toArray());
  return copy;
}

/** Puts a copy in the place of whatever the tables of that name hold. */
export async function putBack(name: string, copy: Copy): Promise<void> {
  const db = new BookDb(name);
  for (const table of db.tables) {
    await table.clear();
    await table.bulkPut(copy.get(table.name) ?? []);
  }
  db.close();
}

/** What the phone shows, to be held against the server's records. */
export const shownIn = async (book: Book): Promise<string[]> =>
  (await book.db.live.toArray())
    .filter((row) => !row.ghost)
    .map((row) => row.key)
    .sort();

export const counters = async (book: Book) => {
  const state = await book.db.meta.get("state");
  if (state?.key !== "state") throw new Error("this phone has no counters");
  return state;
};
