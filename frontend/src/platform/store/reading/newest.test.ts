// @vitest-environment node
import { effect, untracked } from "@preact/signals";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { type Book, openBook } from "../book";
import { newId } from "../core/uuid7";
import type { LiveRow } from "../db";
import type { Row } from "../types";
import { NEWEST } from "./newest";

let opened: Book[] = [];
let kept: Map<string, string>;

beforeEach(() => {
  kept = new Map();
  vi.stubGlobal("localStorage", {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, text: string) => kept.set(key, text),
    removeItem: (key: string) => kept.delete(key),
  });
});

afterEach(() => {
  for (const book of opened) book.close();
  opened = [];
  vi.unstubAllGlobals();
});

function open(name: string): Book {
  const book = openBook(name, { now: () => Date.parse("2030-05-01T12:00:00Z"), persist: undefined });
  opened.push(book);
  return book;
}

const DAY_MS = 86_400_000;
const at = (day: number) => new Date(Date.parse("2020-01-01T10:00:00Z") + day * DAY_MS).toISOString();

function entry(day: number, id = newId()) {
  return { t: "entry", id, body: { kind: "observation", occurred_at: at(day), by: "me", zone_ids: [] } };
}

/** A book of so many entries, a day each, that was read once by an app that is closed by now. */
async function readOnce(name: string, entries: number): Promise<void> {
  const book = open(name);
  const all = Array.from({ length: entries }, (_, day) => entry(day));
  for (let from = 0; from < entries; from += 50) await book.save(all.slice(from, from + 50));
  book.close();
  const again = open(name);
  await wholly(again);
  again.close();
}

const wholly = (book: Book) => vi.waitFor(() => expect(book.loaded("entry").value).toBe(true));
const said = (rows: readonly Row[]): string[] => rows.map(({ body }) => body?.occurred_at);

/** What is done at the moment in which they are first shown. */
async function whenShown<T>(book: Book, work: (shown: readonly LiveRow[]) => T): Promise<T> {
  const newest = book.newest("entry");
  let seen = false;
  return new Promise((done) => {
    const stop = effect(() => {
      const shown = newest.value;
      if (shown && !seen) {
        seen = true;
        untracked(() => done(work(shown)));
        queueMicrotask(() => stop());
      }
    });
  });
}

/** What is shown before all is read, and what then turns out to be the beginning of it. */
async function shownAndTrue(book: Book): Promise<[string[], string[]]> {
  const shown = await whenShown(book, (rows) => {
    expect(book.loaded("entry").value).toBe(false);
    return said(rows);
  });
  await wholly(book);
  return [shown, said(book.rows("entry").value.slice(0, shown.length))];
}

describe("the newest entries", () => {
  it("are shown before ten years are read, and are what the log begins with", async () => {
    const name = newId();
    await readOnce(name, NEWEST + 60);
    const [shown, truly] = await shownAndTrue(open(name));
    expect(shown).toHaveLength(NEWEST);
    expect(shown).toEqual(truly);
  });

  it("are those of now: what was written, moved and crossed out since they were noted is among them", async () => {
    const name = newId();
    await readOnce(name, NEWEST + 60);
    const note = new Map(kept);
    const book = open(name);
    await wholly(book);
    const rows = book.rows("entry").value;
    const when = (occurred_at: string) => ({ when: { occurred_at } });
    await book.save([entry(500)]);
    await book.save([{ t: "entry", id: rows[3]?.id ?? "", set: when(at(1)) }]);
    await book.save([{ t: "entry", id: rows.at(-1)?.id ?? "", set: when(at(400)) }]);
    await book.save([{ t: "entry", id: rows[5]?.id ?? "", set: { deleted: { deleted: true } } }]);
    book.close();
    // A browser that was killed has kept an older note.
    kept = note;
    const [shown, truly] = await shownAndTrue(open(name));
    expect(shown[0]).toBe(at(500));
    expect(shown).toEqual(truly);
  });

  it("are not told by another book, nor by one that counts anew", async () => {
    const name = newId();
    await readOnce(name, 3);
    const other = open(newId());
    const seen = other.newest("entry");
    await wholly(other);
    expect(seen.value).toBeUndefined();
    await readOnce(name, 3);
    const again = open(name);
    await again.db.live.toCollection().modify({ rev: 0 });
    const newest = again.newest("entry");
    await wholly(again);
    expect(newest.value).toBeUndefined();
  });

  it("take in what is written before all are read", async () => {
    const name = newId();
    await readOnce(name, 3);
    const book = open(name);
    const shown = await whenShown(book, () => {
      book.show([{ ...entry(900), key: "entry:new", groups: {}, seq: 0, pending: true, rev: 99 }]);
      return said(book.newest("entry").value ?? []);
    });
    expect(shown).toEqual([900, 2, 1, 0].map(at));
  });
});
