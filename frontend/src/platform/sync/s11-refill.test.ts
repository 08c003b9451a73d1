// @vitest-environment node
import { describe, expect, it, vi } from "vitest";
import { newId } from "../store/core/uuid7";
import { ackedOps } from "../store/incoming/refill";
import { reincarnate } from "../store/lines";
import { copyOf, counters, fakeHousehold, nameOf, outboxOf, putBack, shownIn, zone } from "./fake/household";

const DAY = 24 * 60 * 60_000;
const household = fakeHousehold();
const book = () => household.book;
const onServer = () => [...household.server.records.keys()].sort();
const ackedIn = async () =>
  (await book().db.acked.toArray())
    .flatMap(ackedOps)
    .map((op) => op.op)
    .sort();

/** Saves and sends; the op's id. */
async function sent(name: string, id = newId()): Promise<string> {
  const { op } = await book().save([zone(id, name)]);
  await household.sync.kick();
  return op;
}

/** Server and phone a while later, by both clocks. */
function later(days: number): void {
  const time = household.world.time + days * DAY;
  household.world.time = time;
  household.server.clock = () => time;
}

describe("S11 what was acknowledged is kept 30 days", () => {
  it("whole, with its hash, from the answer on; holes are not", async () => {
    await household.sync.start();
    const op = await sent("Verge");
    const [row] = await book().db.acked.toArray();
    expect(row).toMatchObject({ at: household.server.clock() });
    const [kept] = row ? ackedOps(row) : [];
    expect(kept).toMatchObject({ op, dseq: 1 });
    expect(kept?.hash).toBe(household.server.ops.get(op)?.op.hash);
    expect(kept?.m[0]?.set).toEqual({ name: { name: "Verge" } });
    expect(await outboxOf(book())).toEqual([]);
  });

  it("F22 F41 as older builds kept it, a row an op, as well: it goes out again", async () => {
    await household.sync.start();
    const backup = household.server.backup();
    const op = await sent("Verge");
    const [row] = await book().db.acked.toArray();
    const [kept] = row ? ackedOps(row) : [];
    await book().db.acked.clear();
    const { at, mine } = row as NonNullable<typeof row>;
    await book().db.acked.put({ ...(kept as NonNullable<typeof kept>), at, mine });
    household.server.restore(backup);
    await household.sync.kick();
    expect([...household.server.ops.keys()]).toEqual([op]);
    expect(await ackedIn()).toEqual([op]);
  });

  it("and goes after that", async () => {
    await household.sync.start();
    const old = await sent("old");
    later(29);
    const young = await sent("young");
    expect(await ackedIn()).toEqual([old, young].sort());
    later(2);
    await household.sync.kick();
    expect(await ackedIn()).toEqual([young]);
  });

  it("F25 F27 not by the phone's clock alone: 3 years back, a year ahead, then mended, nothing goes early", async () => {
    await household.sync.start();
    const real = household.world.time;
    household.world.time = real - 3 * 365 * DAY;
    const first = await sent("clock 3 years back");
    household.world.time = real;
    const second = await sent("mended");
    household.world.time = real + 365 * DAY;
    const third = await sent("a year ahead");
    household.world.time = real;
    await household.sync.kick();
    expect(await ackedIn()).toEqual([first, second, third].sort());
  });

  it("F27 nor by a server's clock that jumps a year ahead for one answer", async () => {
    await household.sync.start();
    const op = await sent("Verge");
    const right = household.server.clock;
    household.server.clock = () => right() + 365 * DAY;
    await household.sync.kick();
    household.server.clock = right;
    await household.sync.kick();
    expect(await ackedIn()).toEqual([op]);
  });
});

describe("S11 a server restored from a backup", () => {
  it("F22 F55 two days old: the phone sends again what the server lacks, and known ops change nothing twice", async () => {
    await household.sync.start();
    await sent("before the backup");
    const backup = household.server.backup();
    later(1);
    const id = newId();
    await sent("a", id);
    await sent("b", id);
    await sent("another");
    const { op: waiting } = await book().save([zone(newId(), "never sent")]);
    const before = await counters(book());
    household.server.restore(backup);
    await household.sync.kick();
    expect(household.server.ops.size).toBe(5);
    expect(household.server.ops.has(waiting)).toBe(true);
    expect(household.server.records.get(`zone:${id}`)?.groups["name"]?.value).toEqual({ name: "b" });
    expect(await outboxOf(book())).toEqual([]);
    expect(await shownIn(book())).toEqual(onServer());
    const after = await counters(book());
    expect(after.incarnation).not.toBe(before.incarnation);
    expect(after).toMatchObject({ epoch: household.server.epoch, cursor: household.server.head });
    expect(await book().db.meta.get("sync")).toMatchObject({ state: "ok" });
  });

  it("F22 keeps what it sent again for another time", async () => {
    await household.sync.start();
    const backup = household.server.backup();
    const ops = [await sent("a"), await sent("b")];
    household.server.restore(backup);
    await household.sync.kick();
    expect(await ackedIn()).toEqual(ops.sort());
    household.server.restore(backup);
    await household.sync.kick();
    expect([...household.server.ops.keys()].sort()).toEqual(ops.sort());
  });

  it("F22 in the order they were entered, many within one tick of the clock (P3)", async () => {
    await household.sync.start();
    const backup = household.server.backup();
    vi.spyOn(Date, "now").mockReturnValue(Date.parse("2030-05-01T12:00:00Z"));
    const ops: string[] = [];
    for (let at = 0; at < 20; at++) ops.push((await book().save([zone(newId(), `z${at}`)])).op);
    vi.mocked(Date.now).mockRestore();
    await household.sync.kick();
    household.server.restore(backup);
    await household.sync.kick();
    expect([...household.server.ops.keys()]).toEqual(ops);
  });

  it("F22 in the order they were entered, though several lines were counted meanwhile (P3)", async () => {
    const name = newId();
    Object.assign(household, household.phone(name));
    await household.sync.start();
    const backup = household.server.backup();
    const weekOld = await copyOf(book());
    const id = newId();
    await sent("first", id);
    household.sync.stop();
    book().close();
    await putBack(name, weekOld);
    Object.assign(household, household.phone(name));
    household.world.time += DAY;
    await household.sync.start();
    await sent("second", id);
    await sent("third", id);
    household.server.restore(backup);
    await household.sync.kick();
    const order = [...household.server.ops.values()].map(({ op }) => op.m[0]?.set?.["name"]);
    expect(order).toEqual([{ name: "second" }, { name: "third" }]);
    expect(household.server.records.get(`zone:${id}`)?.groups["name"]?.value).toEqual({ name: "third" });
  });

  it("F22 in the order they were entered, line after line (P3)", async () => {
    await household.sync.start();
    const backup = household.server.backup();
    const ops = [await sent("a"), await sent("b")];
    await reincarnate(book().db, (await counters(book())).incarnation);
    ops.push(await sent("c"));
    household.server.restore(backup);
    await household.sync.kick();
    expect([...household.server.ops.keys()]).toEqual(ops);
  });

  it("F22 counts what waits behind what was acknowledged (S5)", async () => {
    await household.sync.start();
    const backup = household.server.backup();
    await sent("a");
    await book().save([zone(newId(), "waits")]);
    household.server.restore(backup);
    await household.sync.kick();
    const { dseq, incarnation } = await counters(book());
    expect(dseq).toBe(2);
    await sent("next");
    expect((await counters(book())).incarnation).toBe(incarnation);
  });

  it("F22 is known by its epoch alone: what was sent under an earlier line goes out again", async () => {
    await household.sync.start();
    const backup = household.server.backup();
    const op = await sent("a");
    await reincarnate(book().db, (await counters(book())).incarnation);
    household.server.restore(backup);
    for (let others = 0; others < 2; others++) household.server.write("zone", newId());
    await household.sync.kick();
    expect(household.server.ops.has(op)).toBe(true);
    expect(await shownIn(book())).toEqual(onServer());
  });

  it("F22 shows nobody's older words meanwhile: what another phone wrote later stays on the screen", async () => {
    const id = newId();
    book().rows("zone");
    await household.sync.start();
    await sent("mine, first", id);
    household.world.time += 1000;
    const theirs = "9000000000000-0000-0badc0de";
    const value = { value: { name: "theirs, later" }, version: newId(), hlc: theirs };
    household.server.write("zone", id, { groups: { name: value } });
    await household.sync.kick();
    household.server.restore(household.server.backup());
    const seen: (string | undefined)[] = [];
    household.server.faults.push(
      (reached) => reached(),
      (reached, body) => {
        body.ops.length = 0;
        return reached();
      },
    );
    household.server.always = (reached) => {
      seen.push(nameOf(book(), id));
      return reached();
    };
    await household.sync.kick();
    seen.push(nameOf(book(), id));
    expect(seen.length).toBeGreaterThan(1);
    expect(new Set(seen)).toEqual(new Set(["theirs, later"]));
  });

  it("F22 drops what no phone can send again only when the whole book has come, and rows stay till then", async () => {
    const kept = household.server.write("zone", newId());
    await household.sync.start();
    const backup = household.server.backup();
    const lost = household.server.write("zone", newId());
    await household.sync.kick();
    household.server.restore(backup);
    household.server.faults.push(
      (reached) => reached(),
      () => Response.error(),
    );
    await household.sync.kick();
    expect(await shownIn(book())).toEqual([kept, lost].map(({ id }) => `zone:${id}`).sort());
    await household.world.runNext();
    expect(await shownIn(book())).toEqual([`zone:${kept.id}`]);
    expect(await book().db.base.count()).toBe(1);
  });

  it("F22 interrupted at any write: the phone starts the step again and everything arrives", async () => {
    for (let at = 1; at <= 6; at++) {
      Object.assign(household, household.phone());
      await household.sync.start();
      const backup = household.server.backup();
      const ids = [newId(), newId()];
      for (const id of ids) await sent("sent", id);
      ids.push(newId());
      await book().save([zone(ids[2] as string, "waiting")]);
      household.server.restore(backup);
      let writes = 0;
      const died = vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(function (
        this: IDBObjectStore,
        ...args
      ) {
        writes += 1;
        if (writes === at * 2) throw new DOMException("power cut", "AbortError");
        return put.apply(this, args);
      });
      await household.sync.kick();
      died.mockRestore();
      await household.world.runNext();
      for (const id of ids) expect(household.server.records.has(`zone:${id}`)).toBe(true);
      expect(await outboxOf(book())).toEqual([]);
      household.sync.stop();
    }
  });

  it("F55 without a word, its line shorter than acknowledged: everything kept goes out again", async () => {
    await household.sync.start();
    await sent("kept");
    const backup = household.server.backup();
    const id = newId();
    await sent("lost in the failover", id);
    household.server.restore(backup, household.server.epoch);
    household.server.write("zone", newId());
    household.server.write("zone", newId());
    await household.sync.kick();
    expect(household.server.records.has(`zone:${id}`)).toBe(true);
    expect(await shownIn(book())).toEqual(onServer());
  });

  it("F55 without a word, its book shorter than the cursor: the same", async () => {
    household.server.write("zone", newId());
    await household.sync.start();
    const backup = household.server.backup();
    const id = newId();
    await sent("lost", id);
    household.server.restore(backup, household.server.epoch);
    await household.sync.kick();
    expect(household.server.records.has(`zone:${id}`)).toBe(true);
    expect(await shownIn(book())).toEqual(onServer());
  });

  it("F22 an answer of the server before, arriving late, settles nothing", async () => {
    const name = newId();
    const [slow, quick] = [household.phone(name), household.phone(name)];
    await quick.sync.start();
    const backup = household.server.backup();
    const id = newId();
    await slow.book.save([zone(id, "Verge")]);
    let letGo: () => void = () => undefined;
    household.server.faults.push(async (reached) => {
      const early = reached();
      await new Promise<void>((go) => {
        letGo = go;
      });
      return early;
    });
    const asked = household.server.pushes.length;
    const late = slow.sync.start();
    while (household.server.pushes.length === asked) await new Promise((go) => setImmediate(go));
    household.server.restore(backup);
    household.server.faults.push((reached, body) => {
      body.ops.length = 0;
      return reached();
    });
    household.server.always = () => Response.error();
    await quick.sync.kick();
    household.server.always = undefined;
    letGo();
    await late;
    expect(household.server.records.has(`zone:${id}`)).toBe(true);
    expect(await outboxOf(slow.book)).toEqual([]);
    // Neither did it make the phone take the old server's book for the newest: it counted anew once.
    expect(new Set(household.server.pushes.map((push) => push.incarnation)).size).toBe(2);
  });
});

const put = IDBObjectStore.prototype.put;
