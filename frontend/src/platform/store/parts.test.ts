// @vitest-environment node
/** A log of years is read, looked over and summed up a few hundred rows at a time. */
import { afterEach, describe, expect, it, vi } from "vitest";
import { type Book, openBook } from "./book";
import { digestText, sumAll } from "./core/digest";
import { keyOf } from "./core/records";
import { newId } from "./core/uuid7";
import { BookDb } from "./db";
import { trueDigest } from "./incoming/mend";
import { AT_ONCE } from "./parts";
import { lookOver } from "./reading/look-over";

const MANY = 2 * AT_ONCE + 7;
const START = Date.parse("2030-05-01T12:00:00Z");

const entry = (number: number, rev = 1) => {
  const id = newId();
  // Not in the order of their ids, as where somebody notes late what was done before.
  const occurred_at = new Date(START + ((number * 37) % MANY) * 3_600_000).toISOString();
  return {
    key: keyOf("entry", id),
    t: "entry",
    id,
    body: { kind: "mow", occurred_at },
    groups: {},
    seq: number + 1,
    pending: false,
    rev,
  };
};

let book: Book | undefined;

async function opened(rows: object[], state: object = {}): Promise<Book> {
  const name = newId();
  const db = new BookDb(name);
  await db.live.bulkPut(rows as never);
  await db.meta.put({ key: "state", ...state } as never);
  db.close();
  book = openBook(name, { now: () => START, persist: undefined });
  return book;
}

const read = async (mine: Book) =>
  vi.waitFor(() => {
    if (!mine.loaded("entry").value) throw new Error("not read yet");
    return mine.rows("entry").value;
  });

afterEach(() => {
  book?.close();
  lookOver.row = () => undefined;
});

describe("a log of years", () => {
  it("is read and looked over a few hundred rows at a time, and is there whole in its order", async () => {
    const rows = Array.from({ length: MANY }, (_, number) => entry(number));
    const turns: number[] = [];
    let last: unknown;
    let turn: object = {};
    lookOver.row = () => {
      if (turn !== last) {
        turns.push(0);
        last = turn;
        // What another task looks over is counted apart. Not by a timer: a quick machine has read all before one fires.
        setImmediate(() => {
          turn = {};
        });
      }
      turns[turns.length - 1] = (turns.at(-1) ?? 0) + 1;
    };
    const found = await read(await opened(rows));
    expect(turns.reduce((sum, count) => sum + count, 0)).toBe(MANY);
    expect(turns.length).toBeGreaterThan(1);
    expect(Math.max(...turns)).toBeLessThanOrEqual(2 * AT_ONCE);
    const newestFirst = [...rows].sort((a, b) => (a.body.occurred_at < b.body.occurred_at ? 1 : -1));
    expect(found.map(({ id }) => id)).toEqual(newestFirst.map(({ id }) => id));
  });

  it("keeps its order as entries come, move and are deleted", async () => {
    const rows = Array.from({ length: 9 }, (_, number) => entry(number));
    const mine = await opened(rows);
    await read(mine);
    const [moved, gone] = [rows[4] as (typeof rows)[number], rows[2] as (typeof rows)[number]];
    const when = { value: { occurred_at: "2031-01-01T00:00:00Z" }, version: "v" };
    const deleted = { value: { deleted: true }, version: "v" };
    const fresh = { ...entry(3), rev: 2, body: { kind: "mow", occurred_at: "2030-12-01T00:00:00Z" } };
    mine.show([{ ...moved, rev: 2, groups: { when } }, { ...gone, rev: 2, groups: { deleted } }, fresh]);
    const ids = mine.rows("entry").value.map(({ id }) => id);
    expect(ids.slice(0, 2)).toEqual([moved.id, fresh.id]);
    expect(ids).not.toContain(gone.id);
    expect(ids).toHaveLength(9);
    // Older news of a row never replaces newer.
    mine.show([{ ...moved, rev: 1 }]);
    expect(mine.rows("entry").value[0]?.id).toBe(moved.id);
  });

  it("is summed up whole, part by part", async () => {
    const db = new BookDb(newId());
    const records = Array.from({ length: MANY }, (_, at) => ({
      t: "entry",
      id: newId(),
      seq: at + 1,
      groups: {},
    }));
    await db.base.bulkPut(records.map((record) => ({ key: keyOf("entry", record.id), record, era: 0 })));
    const old = { t: "entry", id: newId(), seq: 9, groups: {} };
    await db.meta.put({ key: "state", era: 0 } as never);
    await db.base.put({ key: keyOf("entry", old.id), record: old, era: -1 });
    expect(await trueDigest(db)).toBe(digestText(sumAll(records)));
    expect(await db.meta.get("state")).toMatchObject({ count: MANY });
    db.close();
  });
});

describe("rows of withdrawn creations", () => {
  const ghost = { ...entry(1), ghost: true };

  it("are looked for only where there are some, and then once", async () => {
    const clean = await opened([entry(0), ghost], { ghosts: false });
    await read(clean);
    expect(await clean.db.live.count()).toBe(2);
    clean.close();
    const unclean = await opened([entry(0), ghost], {});
    await read(unclean);
    await vi.waitFor(async () => expect(await unclean.db.live.count()).toBe(1));
    await vi.waitFor(async () => expect(await unclean.db.meta.get("state")).toMatchObject({ ghosts: false }));
  });
});
