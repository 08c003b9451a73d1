// @vitest-environment happy-dom
import { liveQuery } from "dexie";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { newId } from "./core/uuid7";
import { BookDb } from "./db";
import { endWhenLeft } from "./leaving";
import { saveOp } from "./writing";

let db: BookDb;
let stop: () => void;

const zone = (name: string) => saveOp(db, [{ t: "zone", id: newId(), set: { name: { name } } }], Date.now());

/** The browser keeps the page whole (persisted), as every engine does where it may. */
const page = (what: "pagehide" | "pageshow") =>
  dispatchEvent(Object.assign(new Event(what), { persisted: true }));

beforeEach(() => {
  db = new BookDb(`leaving-${newId()}`);
  stop = endWhenLeft(db, true);
});

afterEach(() => {
  stop();
  db.close();
});

describe("leaving the page (S14)", () => {
  it("refuses a save under way, which leaves nothing behind, and goes on when the page is shown again", async () => {
    await zone("Before");
    const cut = zone("Cut short");
    await vi.waitFor(() => expect(db.isOpen()).toBe(true));
    page("pagehide");
    await expect(cut).rejects.toThrow();
    page("pageshow");
    await zone("After");
    const names = (await db.live.toArray()).map((row) => row.groups["name"]?.value.name);
    expect(names.sort()).toEqual(["After", "Before"]);
    const ops = await db.outbox.orderBy("dseq").toArray();
    expect(ops.map((op) => op.dseq)).toEqual([1, 2]);
  });

  it("opens nothing again while the page goes", async () => {
    await zone("Before");
    page("pagehide");
    await expect(zone("Too late")).rejects.toThrow();
    expect(db.isOpen()).toBe(false);
  });

  it("brings what is followed up to date when the page is shown again", async () => {
    const seen: number[] = [];
    const following = liveQuery(() => db.live.count()).subscribe((count) => seen.push(count));
    await vi.waitFor(() => expect(seen).toEqual([0]));
    page("pagehide");
    const elsewhere = new BookDb(db.name);
    await saveOp(elsewhere, [{ t: "zone", id: newId(), set: { name: { name: "Other tab" } } }], Date.now());
    elsewhere.close();
    page("pageshow");
    await vi.waitFor(() => expect(seen.at(-1)).toBe(1));
    following.unsubscribe();
  });

  it("ends nothing in an engine that finishes its writes, nor after the book was closed", async () => {
    const other = new BookDb(`leaving-${newId()}`);
    endWhenLeft(other, false);
    stop();
    await other.open();
    await db.open();
    page("pagehide");
    // Dexie itself closes what may be kept whole; either opens again by itself.
    expect(await other.live.count()).toBe(0);
    expect(await db.live.count()).toBe(0);
    other.close();
  });
});
