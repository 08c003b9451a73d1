// @vitest-environment node
import { afterEach, describe, expect, it, vi } from "vitest";
import { type Book, openBook } from "./book";
import { newId } from "./core/uuid7";
import { bookName } from "./index";
import { takePush } from "./lines";

const LIMITS = { ops: 200, bytes: 262_144 };
let opened: Book[] = [];
let asked = 0;

function open(name: string = newId()): Book {
  const book = openBook(name, {
    now: () => Date.parse("2030-05-01T12:00:00Z"),
    persist: async () => {
      asked += 1;
      return true;
    },
  });
  opened.push(book);
  return book;
}

const zone = (id: string, name: string) => ({ t: "zone", id, set: { name: { name } } });

afterEach(() => {
  for (const book of opened) book.close();
  opened = [];
  asked = 0;
});

describe("S14 a save", () => {
  it("is one strict transaction over record, op and number", async () => {
    const begun = vi.spyOn(IDBDatabase.prototype, "transaction");
    const book = open();
    await book.save([zone(newId(), "Verge")]);
    const all = ["live", "meta", "outbox"];
    const writes = begun.mock.calls.filter(([tables]) => [...tables].sort().join() === all.join());
    expect(writes.map(([, mode, how]) => [mode, how])).toEqual([["readwrite", { durability: "strict" }]]);
  });

  it("writes nothing at all when any part of it fails (F1, F37)", async () => {
    const book = open();
    await book.save([zone(newId(), "before")]);
    const full = vi
      .spyOn(book.db.outbox, "add")
      .mockRejectedValueOnce(new DOMException("", "QuotaExceededError"));
    await expect(book.save([zone(newId(), "lost?")])).rejects.toThrow();
    full.mockRestore();
    expect(await book.db.live.count()).toBe(1);
    expect(await book.db.outbox.count()).toBe(1);
    await book.save([zone(newId(), "after")]);
    expect((await book.db.outbox.orderBy("dseq").toArray()).map((op) => op.dseq)).toEqual([1, 2]);
  });

  it("is in the outbox after the app was killed and opened again (F2)", async () => {
    const name = newId();
    const first = open(name);
    const { op } = await first.save([zone(newId(), "Verge")]);
    first.close();
    const again = open(name);
    expect((await again.db.outbox.toArray()).map((one) => one.op)).toEqual([op]);
  });

  it("shows at once, and in another tab soon", async () => {
    const name = newId();
    const [here, there] = [open(name), open(name)];
    const seen = there.rows("zone");
    const mine = here.rows("zone");
    expect(seen.value).toEqual([]);
    await vi.waitFor(() => expect(there.loaded("zone").value).toBe(true));
    await here.save([zone(newId(), "Verge")]);
    expect(mine.value.map((row) => row.groups["name"]?.value.name)).toEqual(["Verge"]);
    await vi.waitFor(() => expect(seen.value).toHaveLength(1));
  });

  it("refuses a number JSON cannot hold, and changes nothing", async () => {
    const book = open();
    const bad = { t: "zone", id: newId(), set: { ground: { area_m2: Number.NaN } } };
    await expect(book.save([bad])).rejects.toThrow("area_m2 is not a number");
    expect(await book.db.outbox.count()).toBe(0);
  });

  it("keeps what was saved, whatever the caller does with its object afterwards", async () => {
    const book = open();
    const mutation = zone(newId(), "Verge");
    await book.save([mutation]);
    mutation.set.name.name = "changed";
    expect((await book.db.outbox.toArray())[0]?.m[0]?.set).toEqual({ name: { name: "Verge" } });
  });

  it("from two tabs at once never gives one number twice (S5, F39)", async () => {
    const name = newId();
    const [here, there] = [open(name), open(name)];
    const saves = [here, there, here, there].map((book, at) => book.save([zone(newId(), `z${at}`)]));
    await Promise.all(saves);
    const ops = await here.db.outbox.orderBy("dseq").toArray();
    expect(ops.map((op) => op.dseq)).toEqual([1, 2, 3, 4]);
    expect([...ops].sort((a, b) => (a.hlc < b.hlc ? -1 : 1)).map((op) => op.dseq)).toEqual([1, 2, 3, 4]);
  });
});

describe("F38 a connection lost in the background", () => {
  it("is opened again by the next save, and screens go on following", async () => {
    const book = open();
    const rows = book.rows("zone");
    await book.save([zone(newId(), "before")]);
    book.db.backendDB().close();
    await book.save([zone(newId(), "after")]);
    expect(await book.db.outbox.count()).toBe(2);
    expect(rows.value).toHaveLength(2);
  });
});

describe("versions", () => {
  it("base a second write on the first, though no server has seen it (P3)", async () => {
    const book = open();
    const id = newId();
    const { op } = await book.save([zone(id, "a")]);
    await book.save([zone(id, "b")]);
    const ops = await book.db.outbox.orderBy("dseq").toArray();
    expect(ops.map((one) => one.m[0]?.base)).toEqual([{ name: null }, { name: op }]);
  });

  it("name every group the person saw, so that a deletion tells which edits it knew of (S2, F31)", async () => {
    const book = open();
    const id = newId();
    const { op } = await book.save([zone(id, "a")]);
    await book.save([{ t: "zone", id, set: { deleted: { deleted: true } } }]);
    const ops = await book.db.outbox.orderBy("dseq").toArray();
    expect(ops[1]?.m[0]?.base).toEqual({ name: op, deleted: null });
  });

  it("make one item of two writes to one record in one save", async () => {
    const book = open();
    const id = newId();
    const grass = { t: "zone", id, set: { grass: { grass: "tall_fescue" } } };
    await book.save([zone(id, "a"), grass, zone(id, "b")]);
    const [op] = await book.db.outbox.toArray();
    expect(op?.m.map((m) => m.set)).toEqual([{ name: { name: "b" }, grass: { grass: "tall_fescue" } }]);
  });
});

describe("withdraw", () => {
  it("takes an entry back that was never sent, everywhere", async () => {
    const book = open();
    const rows = book.rows("entry");
    const { op } = await book.save([{ t: "entry", id: newId(), body: { kind: "mow" } }]);
    expect(rows.value).toHaveLength(1);
    expect(await book.withdraw(op)).toBe(true);
    expect(rows.value).toEqual([]);
    expect(await book.db.outbox.count()).toBe(0);
  });

  it("refuses once the op was taken up for sending (F2)", async () => {
    const book = open();
    const { op } = await book.save([zone(newId(), "a")]);
    await takePush(book.db, LIMITS);
    expect(await book.withdraw(op)).toBe(false);
    expect(await book.db.outbox.count()).toBe(1);
  });

  it("leaves later saves in place and in number", async () => {
    const book = open();
    const id = newId();
    await book.save([zone(id, "a")]);
    const { op } = await book.save([zone(id, "b")]);
    await book.save([{ t: "zone", id, set: { grass: { grass: "ryegrass" } } }]);
    await book.withdraw(op);
    expect(book.row("zone", id)).toBeUndefined();
    await vi.waitFor(() => expect(book.row("zone", id)?.groups["name"]?.value).toEqual({ name: "a" }));
    expect(book.row("zone", id)?.groups["grass"]?.value).toEqual({ grass: "ryegrass" });
    expect((await book.db.outbox.orderBy("dseq").toArray()).map((one) => one.dseq)).toEqual([1, 2]);
  });
});

describe("rows", () => {
  it("leave out what was taken out of the book, and keep it readable by id", async () => {
    const book = open();
    const id = newId();
    const rows = book.rows("zone");
    expect(rows.value).toEqual([]);
    await book.save([zone(id, "a")]);
    await book.save([{ t: "zone", id, set: { deleted: { deleted: true } } }]);
    expect(rows.value).toEqual([]);
    expect(book.row("zone", id)?.groups["name"]?.value).toEqual({ name: "a" });
  });

  it("show entries newest first by when they were done, as amended", async () => {
    const book = open();
    const [early, late] = [newId(), newId()];
    const rows = book.rows("entry");
    const mow = (id: string, occurred_at: string) => ({ t: "entry", id, body: { kind: "mow", occurred_at } });
    expect(rows.value).toEqual([]);
    await book.save([mow(early, "2030-04-01T18:00:00+02:00"), mow(late, "2030-04-02T18:00:00+02:00")]);
    expect(rows.value.map((row) => row.id)).toEqual([late, early]);
    await book.save([{ t: "entry", id: early, set: { when: { occurred_at: "2030-04-03T07:00:00-05:00" } } }]);
    expect(rows.value.map((row) => row.id)).toEqual([early, late]);
  });
});

describe("drafts", () => {
  it("survive closing and opening, and can be followed", async () => {
    const name = newId();
    const first = open(name);
    const watched = first.drafts.watch<{ step: number }>("spread");
    await first.drafts.put("spread", { step: 3 });
    await vi.waitFor(() => expect(watched.value).toEqual({ step: 3 }));
    first.close();
    expect(await open(name).drafts.get("spread")).toEqual({ step: 3 });
  });

  it("are gone when removed", async () => {
    const book = open();
    await book.drafts.put("spread", 1);
    await book.drafts.remove("spread");
    expect(await book.drafts.get("spread")).toBeUndefined();
  });
});

describe("S20 standing", () => {
  it("counts what waits, and asks once to keep the store, after the first save", async () => {
    const book = open();
    expect(asked).toBe(0);
    await book.save([zone(newId(), "a")]);
    await vi.waitFor(() => expect(book.standing.value.persisted).toBe(true));
    await book.save([zone(newId(), "b")]);
    await vi.waitFor(() => expect(book.standing.value).toMatchObject({ waiting: 2, state: "waiting" }));
    expect(asked).toBe(1);
  });
});

describe("S21 stores", () => {
  it("of two people on one phone know nothing of each other (F18)", async () => {
    const [mine, yours] = [open(bookName("p1", "h1")), open(bookName("p2", "h1"))];
    await mine.save([zone(newId(), "mine")]);
    expect(await yours.db.outbox.count()).toBe(0);
    expect(await yours.db.live.count()).toBe(0);
  });
});

describe("export", () => {
  it("holds rows, waiting ops and drafts, and is JSON", async () => {
    const book = open();
    await book.save([zone(newId(), "Verge")]);
    await book.drafts.put("spread", { step: 1 });
    const all = JSON.parse(JSON.stringify(await book.exportAll()));
    expect(all.rows[0].groups.name.value).toEqual({ name: "Verge" });
    expect(all.outbox).toHaveLength(1);
    expect(all.drafts).toEqual([{ key: "spread", value: { step: 1 } }]);
  });
});
