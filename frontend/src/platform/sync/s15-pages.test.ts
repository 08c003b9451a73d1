// @vitest-environment node
import { describe, expect, it, vi } from "vitest";
import { newId } from "../store/core/uuid7";
import { counters, fakeHousehold, nameOf, outboxOf, zone } from "./fake/household";

const household = fakeHousehold();
describe("S15 pages, cursor and waiting ops", () => {
  it("rest together: a phone that dies in between starts the page again (F11)", async () => {
    household.server.write("zone", newId());
    const died = vi.spyOn(household.book.db.meta, "put").mockImplementation((row) => {
      if (row.key === "state" && row.cursor > 0) throw new Error("power cut");
      return household.book.db.table("meta").bulkPut([row]) as never;
    });
    await household.sync.start();
    expect(await household.book.db.base.count()).toBe(0);
    died.mockRestore();
    await household.world.runNext();
    expect(await household.book.db.base.count()).toBe(1);
    expect(((await household.book.db.meta.get("state")) as { cursor: number }).cursor).toBe(1);
  });

  it("F11 nor does the cursor move where the page itself cannot be written", async () => {
    household.server.write("zone", newId());
    const died = vi.spyOn(household.book.db.base, "bulkPut").mockImplementation(() => {
      throw new Error("power cut");
    });
    await household.sync.start();
    expect((await counters(household.book)).cursor).toBe(0);
    died.mockRestore();
    await household.world.runNext();
    expect(await household.book.db.base.count()).toBe(1);
  });

  it("keep a waiting write on top of what comes in (P3)", async () => {
    const id = newId();
    household.server.write("zone", id, { groups: { name: { value: { name: "theirs" }, version: newId() } } });
    household.server.faults.push((reached, body) => {
      body.ops.length = 0;
      return reached();
    });
    household.book.rows("zone");
    await household.book.save([zone(id, "mine")]);
    const seen: (string | undefined)[] = [];
    household.server.always = (reached) => {
      seen.push(nameOf(household.book, id));
      return reached();
    };
    await household.sync.start();
    seen.push(nameOf(household.book, id));
    expect(new Set(seen)).toEqual(new Set(["mine"]));
  });

  it("keep a judged write on top until the page that holds it is here, though its number was passed (P3)", async () => {
    const id = newId();
    household.book.rows("zone");
    await household.book.save([zone(id, "mine")]);
    await household.book.save([zone(newId(), "another")]);
    // the first record is moved behind the second: its page is the last one
    await household.book.save([{ t: "zone", id, set: { grass: { grass: "rye" } } }]);
    household.server.page = 1;
    const seen: (string | undefined)[] = [];
    household.server.always = (reached) => {
      seen.push(nameOf(household.book, id));
      return reached();
    };
    await household.sync.start();
    expect(seen.length).toBeGreaterThan(1);
    expect(new Set([...seen, nameOf(household.book, id)])).toEqual(new Set(["mine"]));
    expect(await outboxOf(household.book)).toEqual([]);
  });

  it("store kinds and fields this build does not know as they came (F12, P5)", async () => {
    const id = newId();
    household.server.write("drone", id, {
      body: { wings: [1, { deep: true }] },
      groups: { mood: { value: { x: null }, version: "v" } },
      colour: "red",
    });
    await household.sync.start();
    const kept = (await household.book.db.base.get(`drone:${id}`))?.record;
    expect(kept).toEqual(household.server.records.get(`drone:${id}`));
    expect(await household.book.db.base.count()).toBe(household.server.head);
  });

  it("move the phone's stamps on: what is written after reading sorts after what was read (S6, F25)", async () => {
    const theirs = "9000000000000-0000-0badc0de";
    household.server.write("zone", newId(), { groups: { name: { value: {}, version: "v", hlc: theirs } } });
    await household.sync.start();
    await household.book.save([zone(newId(), "mine")]);
    const [mine] = await household.book.db.outbox.toArray();
    expect(mine && mine.hlc > theirs).toBe(true);
  });

  it("F31 are heard in conflicts too: what settles one sorts after the deletion that lost", async () => {
    const lost = { value: { deleted: true }, version: "v", hlc: "9000000000000-0000-0badc0de" };
    const body = { t: "zone", id: newId(), group: "deleted", lost, won: "w" };
    household.server.write("conflict", newId(), { body });
    await household.sync.start();
    await household.book.save([zone(newId(), "mine")]);
    const [mine] = await household.book.db.outbox.toArray();
    expect(mine && mine.hlc > lost.hlc).toBe(true);
  });

  it("an op leaves the outbox only when the cursor has passed it (P1)", async () => {
    household.server.page = 1;
    for (let at = 0; at < 3; at++) household.server.write("zone", newId());
    await household.book.save([zone(newId(), "mine")]);
    const waiting: number[] = [];
    household.server.always = async (reached) => {
      waiting.push((await outboxOf(household.book)).length);
      return reached();
    };
    await household.sync.start();
    expect(waiting).toEqual([1, 1, 1, 1]);
    expect(await outboxOf(household.book)).toEqual([]);
  });
});

describe("two phones at once", () => {
  it("F29 F30 never mix a group: one phone's amount stands with its own unit, and both phones show the same", async () => {
    const id = newId();
    const [a, b] = [household.phone(), household.phone()];
    const whole = [
      { amount: 3, unit: "lb" },
      { amount: 1.5, unit: "kg" },
    ];
    for (const [at, { book }] of [a, b].entries()) {
      book.rows("product");
      await book.save([{ t: "product", id, set: { bag: whole[at] as object } }]);
    }
    const seen: unknown[] = [];
    household.server.always = (reached) => {
      for (const { book } of [a, b]) seen.push(book.row("product", id)?.groups["bag"]?.value);
      return reached();
    };
    for (const { sync } of [a, b, a]) await (sync === a.sync && seen.length ? sync.kick() : sync.start());
    const shown = [a, b].map(({ book }) => book.row("product", id)?.groups["bag"]?.value);
    expect(shown[0]).toEqual(shown[1]);
    for (const value of [...seen, ...shown]) expect(whole).toContainEqual(value);
  });

  it("F31 F32 a deletion met by an edit comes back as the server says, and an entry for a deleted zone is kept", async () => {
    const id = newId();
    const [a, b] = [household.phone(), household.phone()];
    await a.book.save([zone(id, "Verge")]);
    await a.sync.start();
    await b.sync.start();
    const zones = b.book.rows("zone");
    await a.book.save([{ t: "zone", id, set: { deleted: { deleted: true } } }]);
    const entry = newId();
    await b.book.save([{ t: "entry", id: entry, body: { kind: "mow", zone_ids: [id] } }]);
    await a.sync.kick();
    await b.sync.kick();
    expect(zones.value).toEqual([]);
    expect(b.book.row("zone", id)?.groups["name"]?.value).toEqual({ name: "Verge" });
    await a.sync.kick();
    expect((await a.book.db.live.get(`entry:${entry}`))?.body).toEqual({ kind: "mow", zone_ids: [id] });
    household.server.write("zone", id, {
      groups: { deleted: { value: { deleted: false }, version: newId() } },
    });
    await b.sync.kick();
    expect(zones.value.map((row) => row.id)).toEqual([id]);
  });
});

describe("an answer that comes after a newer one (F7)", () => {
  it("does not bring an older copy of a record back (P3, P5)", async () => {
    const name = newId();
    const [slow, quick] = [household.phone(name), household.phone(name)];
    const { id } = household.server.write("zone", newId(), {
      groups: { name: { value: { name: "old" }, version: "v1" } },
    });
    let letGo: () => void = () => undefined;
    household.server.faults.push(async (reached) => {
      const early = reached();
      await new Promise<void>((go) => {
        letGo = go;
      });
      return early;
    });
    const late = slow.sync.start();
    await vi.waitFor(() => expect(household.server.pushes).toHaveLength(1));
    household.server.write("zone", id, { groups: { name: { value: { name: "new" }, version: "v2" } } });
    await quick.sync.start();
    letGo();
    await late;
    const kept = (await slow.book.db.base.get(`zone:${id}`))?.record;
    expect(kept).toMatchObject({ seq: 2, groups: { name: { value: { name: "new" } } } });
    expect(((await slow.book.db.meta.get("state")) as { cursor: number }).cursor).toBe(2);
  });
});

describe("two tries at once (F6)", () => {
  it("of two tabs leave every op applied once", async () => {
    const name = newId();
    const [a, b] = [household.phone(name), household.phone(name)];
    for (let at = 0; at < 20; at++) await a.book.save([zone(newId(), `z${at}`)]);
    await Promise.all([a.sync.start(), b.sync.start()]);
    expect(await outboxOf(a.book)).toEqual([]);
    expect(household.server.head).toBe(20);
    expect(await a.book.db.base.count()).toBe(20);
  });
});
