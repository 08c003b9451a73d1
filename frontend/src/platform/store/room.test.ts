// @vitest-environment node
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { type Book, openBook } from "./book";
import { newId } from "./core/uuid7";
import { BookDb, LAYOUT, LEAST_WRITER } from "./db";

let name: string;
let book: Book;
let closing: { close(): void }[];

const zone = (called: string) => ({ t: "zone", id: newId(), set: { name: { name: called } } });
const names = async (db: BookDb) =>
  (await db.live.toArray()).map((row) => row.groups["name"]?.value.name).sort();
const numbers = async (db: BookDb) => (await db.outbox.orderBy("dseq").toArray()).map((op) => op.dseq);

function open(): Book {
  const opened = openBook(name, { now: () => Date.parse("2030-05-01T12:00:00Z"), persist: undefined });
  closing.push(opened);
  return opened;
}

beforeEach(async () => {
  vi.spyOn(console, "warn").mockImplementation(() => undefined);
  name = newId();
  closing = [];
  book = open();
  await book.save([zone("Before")]);
});

afterEach(() => {
  for (const one of closing) one.close();
});

/** The nth write of a save (record, op, counters) meets this error, as the browser gives it; later ones do not. */
function failingAt(nth: number, fail: () => void, times = 1): void {
  let met = 0;
  let left = times;
  for (const how of ["put", "add"] as const) {
    const real = IDBObjectStore.prototype[how];
    vi.spyOn(IDBObjectStore.prototype, how).mockImplementation(function (this: IDBObjectStore, ...given) {
      met += 1;
      if (met < nth || left === 0) return real.apply(this, given);
      left -= 1;
      met = 0;
      fail();
      return real.apply(this, given);
    });
  }
}

const full = () => {
  throw new DOMException("The quota has been exceeded.", "QuotaExceededError");
};
const lost = () => {
  throw new DOMException("Connection to Indexed Database server lost. Refresh the page.", "UnknownError");
};

describe("F37 no room left on a save", () => {
  it.each([1, 2, 3])(
    "at its %s. write: nothing half written, said in words, later saves go on",
    async (nth) => {
      failingAt(nth, full);
      await expect(book.save([zone("Too much")])).rejects.toThrow("no room left");
      expect(book.room.trouble.value).toBe("full");
      vi.restoreAllMocks();
      expect(await names(book.db)).toEqual(["Before"]);
      await book.save([zone("After")]);
      expect(await numbers(book.db)).toEqual([1, 2]);
      expect(book.room.trouble.value).toBeNull();
    },
  );

  it("found out only after every write was taken: the transaction ends with it", async () => {
    const real = IDBObjectStore.prototype.put;
    vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(function (this: IDBObjectStore, ...given) {
      const asked = real.apply(this, given);
      const end = () => (this.transaction as any)._abort("QuotaExceededError");
      if (this.name === "meta") asked.addEventListener("success", end);
      return asked;
    });
    await expect(book.save([zone("Too much")])).rejects.toMatchObject({ name: "NotStored", kind: "full" });
    vi.restoreAllMocks();
    expect(await names(book.db)).toEqual(["Before"]);
  });

  it("is not tried a second time, and is said of a draft too", async () => {
    failingAt(1, full, 2);
    await expect(book.drafts.put("form", { text: "typed" })).rejects.toThrow("no room left");
    await expect(book.drafts.put("form", { text: "typed" })).rejects.toThrow("What you typed is still there");
    await book.drafts.put("form", { text: "typed" });
    expect(await book.drafts.get("form")).toEqual({ text: "typed" });
  });
});

describe("F38 the connection was lost in the background", () => {
  it.each([1, 2, 3])("at a save's %s. write: opened anew, and saved once", async (nth) => {
    failingAt(nth, lost);
    await book.save([zone("Kept")]);
    expect(await names(book.db)).toEqual(["Before", "Kept"]);
    expect(await numbers(book.db)).toEqual([1, 2]);
    expect(book.room.trouble.value).toBeNull();
  });

  it("and is closing whenever a transaction is begun: opened anew", async () => {
    book.db.backendDB().close();
    expect(() => book.db.backendDB().transaction("live")).toThrow("InvalidStateError");
    await book.save([zone("Kept")]);
    expect(await numbers(book.db)).toEqual([1, 2]);
  });

  it("just after the commit: the save made once more is the same one", async () => {
    const real = book.db.transaction.bind(book.db) as (...given: any[]) => any;
    vi.spyOn(book.db, "transaction").mockImplementationOnce((async (...given: any[]) => {
      await real(...given);
      lost();
    }) as never);
    const { op } = await book.save([zone("Kept")]);
    expect(await names(book.db)).toEqual(["Before", "Kept"]);
    expect((await book.db.outbox.orderBy("dseq").last())?.op).toBe(op);
    expect(await numbers(book.db)).toEqual([1, 2]);
  });

  it("and lost again: refused in words, nothing half written", async () => {
    failingAt(2, lost, 2);
    await expect(book.save([zone("Gone")])).rejects.toThrow("did not answer, so nothing was saved");
    expect(book.room.trouble.value).toBe("lost");
    expect(await names(book.db)).toEqual(["Before"]);
    await book.save([zone("After")]);
    expect(await numbers(book.db)).toEqual([1, 2]);
    expect(book.room.trouble.value).toBeNull();
  });

  it("other errors are not tried again", async () => {
    let times = 0;
    failingAt(
      1,
      () => {
        times += 1;
        throw new DOMException("", "DataError");
      },
      2,
    );
    await expect(book.save([zone("Odd")])).rejects.toThrow();
    expect(times).toBe(1);
  });
});

/** The build of tomorrow: one layout more. */
class Tomorrow extends BookDb {
  constructor() {
    super(name);
    this.version(LAYOUT + 1).stores({ tomorrow: "key" });
  }
}

describe("F41 the tables are brought up to date with an old tab open", () => {
  it("the old tab finishes its save, lets go, says so, and what it saves and types later is kept", async () => {
    const under = book.save([zone("Under way")]);
    const newer = new Tomorrow();
    closing.push(newer);
    await Promise.all([under, newer.open()]);
    expect(newer.backendDB().version).toBe((LAYOUT + 1) * 10);
    expect(book.room.trouble.value).toBe("older_page");
    await book.drafts.put("form", { text: "still typing" });
    await book.save([zone("Later")]);
    expect(await numbers(newer)).toEqual([1, 2, 3]);
    expect(await newer.drafts.get("form")).toEqual({ key: "form", value: { text: "still typing" } });
  });

  it("the new tab waits, says for what, and goes on by itself", async () => {
    book.close();
    const deaf = await new Promise<IDBDatabase>((done) => {
      const asked = indexedDB.open(name);
      asked.onsuccess = () => done(asked.result);
    });
    const newer = new Tomorrow();
    closing.push(newer);
    const { keepRoom } = await import("./room");
    const room = keepRoom(newer);
    const opened = newer.open();
    await vi.waitFor(() => expect(room.trouble.value).toBe("blocked"));
    deaf.close();
    await opened;
    expect(room.trouble.value).toBeNull();
    expect(await names(newer)).toEqual(["Before"]);
  });
});

describe("F43 an older build over a newer one's tables", () => {
  async function written(least: number): Promise<Tomorrow> {
    const newer = new Tomorrow();
    closing.push(newer);
    await newer.open();
    await newer.table("tomorrow").put({ key: "new", value: 1 });
    await newer.meta.put({ key: "layout", least });
    newer.close();
    book.close();
    book = open();
    return newer;
  }

  it("reads, writes and leaves alone what it does not know, where the newer one allows that", async () => {
    const newer = await written(LAYOUT);
    await book.save([zone("By the older")]);
    expect(book.room.trouble.value).toBeNull();
    await newer.open();
    expect(await newer.table("tomorrow").toArray()).toEqual([{ key: "new", value: 1 }]);
    expect(await names(newer)).toEqual(["Before", "By the older"]);
  });

  it("where it would spoil them it reads, exports and keeps drafts, and refuses to save in words", async () => {
    await written(LAYOUT + 1);
    await expect(book.save([zone("By the older")])).rejects.toThrow("written by a newer version");
    expect(book.room.trouble.value).toBe("newer");
    await book.drafts.put("form", { text: "typed" });
    expect(await book.exportAll()).toMatchObject({
      outbox: [{ dseq: 1 }],
      drafts: [{ key: "form", value: { text: "typed" } }],
    });
    expect(await names(book.db)).toEqual(["Before"]);
  });

  it("what this build asks of older ones stands in the book", async () => {
    expect(new BookDb(newId()).verno).toBe(LAYOUT);
    await vi.waitFor(async () =>
      expect(await book.db.meta.get("layout")).toEqual({ key: "layout", least: LEAST_WRITER }),
    );
  });
});
