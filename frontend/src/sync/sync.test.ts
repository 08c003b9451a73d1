// @vitest-environment node
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { type Book, openBook } from "../store/book";
import { newId } from "../store/core/uuid7";
import type { MetaRow } from "../store/db";
import { CAP_MS } from "./backoff";
import { FakeServer, json } from "./fake-server";
import { FakeWorld } from "./fake-world";
import { request } from "./http";
import { createSync, type Sync } from "./index";

let server: FakeServer;
let world: FakeWorld;
let book: Book;
let sync: Sync;
let who: "same" | "other" | "unknown";
let closing: (() => void)[] = [];

/** A phone of the household: its own store, the shared server, time on demand. */
function phone(name: string = newId()): { book: Book; sync: Sync } {
  const opened = openBook(name, { now: () => world.now(), persist: undefined });
  const made = createSync({
    book: opened,
    household: "h1",
    confirm: async () => who,
    send: (method, path, body) => request(method, path, body, { fetch: server.fetch, timeoutMs: 60_000 }),
    world,
  });
  closing.push(() => made.stop(), opened.close);
  return { book: opened, sync: made };
}

const zone = (id: string, name: string) => ({ t: "zone", id, set: { name: { name } } });
const outboxOps = async (of: Book = book) =>
  (await of.db.outbox.orderBy("dseq").toArray()).map((op) => op.op);
const nameOf = (id: string, of: Book = book) => of.row("zone", id)?.groups["name"]?.value?.name;
const state = async () => (await book.db.meta.get("sync")) as { state: string; failures: number } | undefined;

beforeEach(() => {
  server = new FakeServer();
  world = new FakeWorld();
  who = "same";
  ({ book, sync } = phone());
});

afterEach(() => {
  for (const close of closing) close();
  closing = [];
});

describe("one round trip", () => {
  it("brings an entry from one phone to the other, and both equal the server by digest (P4)", async () => {
    const id = newId();
    await book.save([zone(id, "Verge")]);
    await sync.start();
    const other = phone();
    other.book.rows("zone");
    await other.sync.start();
    expect(nameOf(id, other.book)).toBe("Verge");
    expect(await outboxOps()).toEqual([]);
    expect(other.book.row("zone", id)?.pending).toBe(false);
    expect(await state()).toMatchObject({ state: "ok", failures: 0 });
  });

  it("fetches page after page until nothing is left", async () => {
    server.page = 3;
    for (let at = 0; at < 10; at++) server.write("zone", newId());
    await sync.start();
    expect(await book.db.base.count()).toBe(10);
    expect(server.pushes.map((push) => push.cursor)).toEqual([0, 3, 6, 9]);
  });

  it("sends more than one push may hold in several, in order (P3)", async () => {
    for (let at = 0; at < 230; at++) await book.save([zone(newId(), `z${at}`)]);
    await sync.start();
    expect(server.pushes.map((push) => push.ops.length).slice(0, 2)).toEqual([200, 30]);
    expect(server.records.size).toBe(230);
  });
});

describe("S9 only a verdict of the server changes the outbox", () => {
  const html = () =>
    new Response("<html>Sign in to the hotel's network</html>", { headers: { "Content-Type": "text/html" } });
  const later: [string, () => Response][] = [
    ["401 for ten days (F17)", () => json(401, { code: "signed_out", message: "Sign in to go on." })],
    ["403", () => json(403, {})],
    ["404", () => json(404, { code: "not_found", message: "There is nothing here." })],
    ["409", () => json(409, {})],
    ["426 (F44)", () => json(426, { code: "update_needed", message: "Open the app again." })],
    ["429 (F20)", () => json(429, {}, { "Retry-After": "120" })],
    ["500 (F15)", () => new Response("", { status: 500 })],
    ["503 (F20)", () => json(503, { code: "busy", message: "The server is busy." })],
    ["a redirect (F19)", () => new Response(null, { status: 302, headers: { Location: "http://portal/" } })],
    ["a captive portal's page with 200 (F19)", html],
    [
      "a body cut half way (F5)",
      () => new Response('{"results": [', { headers: { "Content-Type": "application/json" } }),
    ],
    ["JSON of somebody else", () => json(200, { ok: true })],
    [
      "another protocol",
      () =>
        json(200, { proto: 2, results: [], changes: [], cursor: 9, head: 9, has_more: false, acked_dseq: 9 }),
    ],
    ["no answer at all", () => Response.error()],
  ];

  it.each(later)("%s means later", async (_name, answer) => {
    const { op } = await book.save([zone(newId(), "Verge")]);
    server.always = answer;
    await sync.start();
    for (let at = 0; at < 10; at++) await world.runNext();
    expect(await outboxOps()).toEqual([op]);
    server.always = undefined;
    await world.runNext();
    expect(await outboxOps()).toEqual([]);
    expect(server.records.size).toBe(1);
    expect(await state()).toMatchObject({ state: "ok", failures: 0 });
  });

  it("and an answer lost after the server stored the op: it applies once (F4, P2)", async () => {
    const id = newId();
    await book.save([zone(id, "Verge")]);
    server.faults.push((reached) => {
      reached();
      throw new TypeError("connection reset");
    });
    await sync.start();
    expect(await outboxOps()).toHaveLength(1);
    await world.runNext();
    expect(await outboxOps()).toEqual([]);
    expect(server.records.get(`zone:${id}`)?.seq).toBe(1);
  });

  it("tells the person what stands in the way", async () => {
    server.always = () => json(401, { code: "signed_out", message: "Sign in to go on." });
    await book.save([zone(newId(), "Verge")]);
    await sync.start();
    await vi.waitFor(() => expect(book.standing.value).toMatchObject({ state: "sign_in", waiting: 1 }));
    server.always = () => json(503, { code: "busy", message: "The server is busy." });
    await world.runNext();
    await vi.waitFor(() =>
      expect(book.standing.value).toMatchObject({ state: "trouble", trouble: "The server is busy." }),
    );
  });
});

describe("a push the server will not take", () => {
  const toxic = (op: string) => (reached: () => Response, body: { ops: { op: string }[] }) =>
    body.ops.some((one) => one.op === op)
      ? json(413, { code: "too_large", message: "Too much." })
      : reached();

  it("is halved until the one op is found; it is set aside, the others flow (S9, P8, F14, F16, F56)", async () => {
    const ops: string[] = [];
    for (let at = 0; at < 9; at++) ops.push((await book.save([zone(newId(), `z${at}`)])).op);
    server.always = toxic(ops[4] ?? "");
    await sync.start();
    expect(await outboxOps()).toEqual([]);
    expect(server.records.size).toBe(8);
    const [aside] = await book.db.parked.toArray();
    expect(aside).toMatchObject({
      op: ops[4],
      where: "unsendable",
      why: { code: "too_large", message: "Too much." },
    });
    expect(aside?.m[0]?.set).toEqual({ name: { name: "z4" } });
    await vi.waitFor(() => expect(book.standing.value.parked).toHaveLength(1));
  });

  it("sets nothing aside when the server refuses everything", async () => {
    for (let at = 0; at < 3; at++) await book.save([zone(newId(), `z${at}`)]);
    server.always = () => json(400, { code: "malformed", message: "No." });
    await sync.start();
    for (let at = 0; at < 5; at++) await world.runNext();
    expect(await outboxOps()).toHaveLength(3);
    expect(await book.db.parked.count()).toBe(0);
  });

  it("is parked by the server with its reason, shown, and can be sent again (P6, F14)", async () => {
    const id = newId();
    const { op } = await book.save([zone(id, "Verge")]);
    server.refuses.set(op, { code: "invalid", message: "Zone name is too long." });
    await sync.start();
    await vi.waitFor(() => expect(book.standing.value.parked).toHaveLength(1));
    expect(book.standing.value.parked[0]).toMatchObject({
      where: "parked",
      why: { message: "Zone name is too long." },
    });
    expect(await outboxOps()).toEqual([]);
    await book.parkedAgain(op);
    await sync.kick();
    expect(server.records.get(`zone:${id}`)?.groups["name"]?.value).toEqual({ name: "Verge" });
    expect(await book.db.parked.count()).toBe(0);
  });
});

describe("S8 a phone whose numbers do not fit", () => {
  it("restored from an old backup: makes a new incarnation and sends again, each op once (F23, F24)", async () => {
    const name = newId();
    const first = phone(name);
    await first.sync.start();
    const weekOld = (await first.book.db.meta.toArray()) as MetaRow[];
    await first.book.save([zone(newId(), "old")]);
    await first.sync.kick();
    first.sync.stop();
    await first.book.db.delete({ disableAutoOpen: false });
    await first.book.db.meta.bulkPut(weekOld);
    first.book.close();
    const restored = phone(name);
    const id = newId();
    await restored.book.save([zone(id, "new")]);
    await restored.sync.start();
    expect(server.records.has(`zone:${id}`)).toBe(true);
    expect(server.records.size).toBe(2);
    expect(await outboxOps(restored.book)).toEqual([]);
    expect(new Set(server.pushes.map((push) => push.incarnation)).size).toBe(2);
  });

  it("whose server forgot its line: counts anew and loses nothing (need_from)", async () => {
    await book.save([zone(newId(), "a")]);
    await sync.start();
    server.lines.clear();
    const id = newId();
    await book.save([zone(id, "b")]);
    await sync.kick();
    expect(server.records.has(`zone:${id}`)).toBe(true);
    expect(await outboxOps()).toEqual([]);
  });

  it("whose server was restored from a backup: pulls from the start, keeps and sends its outbox (F22, P9)", async () => {
    const [kept, later] = [newId(), newId()];
    await book.save([zone(kept, "a")]);
    await sync.start();
    server = new FakeServer();
    await book.save([zone(later, "b")]);
    await sync.kick();
    expect(server.records.has(`zone:${later}`)).toBe(true);
    expect((await book.db.base.get(`zone:${kept}`))?.record.groups["name"]?.value).toEqual({ name: "a" });
  });
});

describe("S15 pages, cursor and waiting ops", () => {
  it("rest together: a phone that dies in between starts the page again (F11)", async () => {
    server.write("zone", newId());
    const died = vi.spyOn(book.db.meta, "put").mockImplementation((row) => {
      if (row.key === "state" && row.cursor > 0) throw new Error("power cut");
      return book.db.table("meta").bulkPut([row]) as never;
    });
    await sync.start();
    expect(await book.db.base.count()).toBe(0);
    died.mockRestore();
    await world.runNext();
    expect(await book.db.base.count()).toBe(1);
    expect(((await book.db.meta.get("state")) as { cursor: number }).cursor).toBe(1);
  });

  it("keep a waiting write on top of what comes in (P3)", async () => {
    const id = newId();
    server.write("zone", id, { groups: { name: { value: { name: "theirs" }, version: newId() } } });
    server.faults.push((reached, body) => {
      body.ops.length = 0;
      return reached();
    });
    book.rows("zone");
    await book.save([zone(id, "mine")]);
    const seen: string[] = [];
    server.always = (reached) => {
      seen.push(nameOf(id));
      return reached();
    };
    await sync.start();
    seen.push(nameOf(id));
    expect(new Set(seen)).toEqual(new Set(["mine"]));
  });

  it("store kinds and fields this build does not know as they came (F12, P5)", async () => {
    const id = newId();
    server.write("drone", id, {
      body: { wings: [1, { deep: true }] },
      groups: { mood: { value: { x: null }, version: "v" } },
      colour: "red",
    });
    await sync.start();
    const kept = (await book.db.base.get(`drone:${id}`))?.record;
    expect(kept).toEqual(server.records.get(`drone:${id}`));
    expect(await book.db.base.count()).toBe(server.head);
  });

  it("an op leaves the outbox only when the cursor has passed it (P1)", async () => {
    server.page = 1;
    for (let at = 0; at < 3; at++) server.write("zone", newId());
    await book.save([zone(newId(), "mine")]);
    const waiting: number[] = [];
    server.always = async (reached) => {
      waiting.push((await outboxOps()).length);
      return reached();
    };
    await sync.start();
    expect(waiting).toEqual([1, 1, 1, 1]);
    expect(await outboxOps()).toEqual([]);
  });
});

describe("P4, F52 the digest", () => {
  it("finds a row that is silently missing, and everything is fetched again, the outbox whole (P9)", async () => {
    const ids = Array.from({ length: 5 }, () => server.write("zone", newId()).id);
    await sync.start();
    await book.db.base.delete(`zone:${ids[2]}`);
    sync.stop();
    const again = phone(book.name);
    await again.sync.start();
    expect(await again.book.db.base.count()).toBe(5);
    const kept = (await again.book.db.meta.get("sync")) as { state: string };
    expect(kept.state).toBe("ok");
  });

  it("that still differs after that is told as trouble, not fetched for ever", async () => {
    server.write("zone", newId());
    vi.spyOn(server, "digest").mockReturnValue("00000000ffffffff");
    await sync.start();
    expect(await state()).toMatchObject({ state: "trouble" });
    const before = server.pushes.length;
    await world.runNext();
    expect(server.pushes.length - before).toBe(1);
  });
});

describe("S17 trying again", () => {
  it("goes on for ever, at most 5 minutes apart, though nobody types (F21)", async () => {
    await book.save([zone(newId(), "Verge")]);
    server.always = () => Response.error();
    await sync.start();
    const pauses: number[] = [];
    for (let at = 0; at < 40; at++) {
      pauses.push(world.nextIn() ?? Number.NaN);
      await world.runNext();
    }
    expect(Math.max(...pauses)).toBeLessThanOrEqual(CAP_MS);
    expect(pauses.at(-1)).toBeGreaterThan(pauses[0] ?? Number.NaN);
    server.always = undefined;
    await world.runNext();
    expect(await outboxOps()).toEqual([]);
  });

  it("waits as long as the server asks, waking or not (F20)", async () => {
    server.faults.push(() => json(503, { code: "busy", message: "Busy." }, { "Retry-After": "90" }));
    await sync.start();
    const tries = server.pushes.length;
    expect(world.nextIn()).toBe(90_000);
    await world.wake();
    expect(server.pushes.length).toBe(tries);
    await world.runNext();
    expect(server.pushes.length).toBeGreaterThan(tries);
  });

  it("tries when the page becomes visible or the phone seems online, whatever it thought before", async () => {
    server.always = () => Response.error();
    await book.save([zone(newId(), "Verge")]);
    await sync.start();
    server.always = undefined;
    await world.wake();
    expect(await outboxOps()).toEqual([]);
  });

  it("follows a save within 2 seconds", async () => {
    await sync.start();
    await book.save([zone(newId(), "Verge")]);
    await vi.waitFor(() => expect(world.nextIn()).toBe(2000));
    await world.runNext();
    expect(await outboxOps()).toEqual([]);
  });

  it("sends nothing under another person's sign-in (F18)", async () => {
    who = "other";
    await book.save([zone(newId(), "Verge")]);
    await sync.start();
    expect(server.pushes).toEqual([]);
    expect(await state()).toMatchObject({ state: "sign_in" });
    who = "same";
    await world.runNext();
    expect(await outboxOps()).toEqual([]);
  });

  it("is not held back by a clock that was set a year back (F26)", async () => {
    server.faults.push(() => json(503, {}, { "Retry-After": "90" }));
    await sync.start();
    world.time -= 365 * 86_400_000;
    await sync.kick();
    expect(await state()).toMatchObject({ state: "ok" });
  });
});

describe("two tries at once (F6)", () => {
  it("of two tabs leave every op applied once", async () => {
    const name = newId();
    const [a, b] = [phone(name), phone(name)];
    for (let at = 0; at < 20; at++) await a.book.save([zone(newId(), `z${at}`)]);
    await Promise.all([a.sync.start(), b.sync.start()]);
    expect(await outboxOps(a.book)).toEqual([]);
    expect(server.head).toBe(20);
    expect(await a.book.db.base.count()).toBe(20);
  });
});
