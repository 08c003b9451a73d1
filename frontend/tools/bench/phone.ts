/** For the bench: the app's own books and syncing in a page without screens, each step timed by the page's clock. */
import { type Book, openBook } from "../../src/platform/store/book";
import { saveOp } from "../../src/platform/store/writing";
import { request, WIRE } from "../../src/platform/sync/http";
import { createSync, type Sync } from "../../src/platform/sync/index";
import { browserWorld } from "../../src/platform/sync/world";

export interface Entry {
  id: string;
  body: object;
}

interface Phone {
  book: Book;
  sync: Sync;
}

export interface Bytes {
  up: number;
  down: number;
}

const AT_ONCE = 200;
const phones = new Map<string, Phone>();
let up = 0;
let began = 0;

/** Opens a phone's book. Rounds come only when asked for, and no other tab contends. */
export function open(name: string, household: string): void {
  const { news: _news, ...world } = browserWorld;
  const book = openBook(name);
  const lone = { ...world, lead: async () => () => undefined, after: () => () => undefined };
  const wire = { ...WIRE, fetch: counted };
  const send: typeof request = (method, path, body) => request(method, path, body, wire);
  const sync = createSync({ book, household, confirm: async () => "same", send, world: lone });
  phones.set(name, { book, sync });
}

/** Saves entries as the app does, each an op of its own; not timed. */
export async function write(name: string, entries: readonly Entry[]): Promise<void> {
  const { db } = phone(name).book;
  for (let from = 0; from < entries.length; from += AT_ONCE) {
    await db.transaction("rw", db.live, db.outbox, db.meta, async () => {
      for (const { id, body } of entries.slice(from, from + AT_ONCE))
        await saveOp(db, [{ t: "entry", id, body }], Date.now());
    });
  }
}

/** The first syncing of a phone, until nothing waits on either side; ms. */
export async function start(name: string): Promise<number> {
  const took = await timed(() => phone(name).sync.start());
  await settled(name);
  return took;
}

/** One more round; ms. */
export async function round(name: string): Promise<number> {
  const took = await timed(() => phone(name).sync.kick());
  await settled(name);
  return took;
}

/** Saves one entry as a tap does, then one round; ms of the round alone. */
export async function roundWith(name: string, entry: Entry): Promise<number> {
  await phone(name).book.save([{ t: "entry", ...entry }]);
  return round(name);
}

export const held = (name: string): Promise<number> =>
  phone(name).book.db.base.where("key").startsWith("entry:").count();

export function close(name: string): void {
  const { book, sync } = phone(name);
  sync.stop();
  book.close();
  phones.delete(name);
}

/** Bodies on the wire since the last asking, as they travelled. */
export function bytes(): Bytes {
  const answers = performance.getEntriesByType("resource") as PerformanceResourceTiming[];
  const down = answers
    .filter(({ startTime, name }) => startTime >= began && name.includes("/api/"))
    .reduce((sum, { encodedBodySize }) => sum + encodedBodySize, 0);
  const found = { up, down };
  performance.clearResourceTimings();
  performance.setResourceTimingBufferSize(10_000);
  began = performance.now();
  up = 0;
  return found;
}

function counted(url: RequestInfo | URL, init?: RequestInit): Promise<Response> {
  const { body } = init ?? {};
  if (typeof body === "string") up += new TextEncoder().encode(body).length;
  else if (body instanceof ArrayBuffer) up += body.byteLength;
  return WIRE.fetch(url, init);
}

async function settled(name: string): Promise<void> {
  const { book } = phone(name);
  const sync = await book.db.meta.get("sync");
  const waiting = await book.db.outbox.count();
  if (waiting > 0 || !sync || !("state" in sync) || sync.state !== "ok")
    throw new Error(`not synced: ${JSON.stringify(sync)}, ${waiting} wait`);
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const from = performance.now();
  await work();
  return performance.now() - from;
}

function phone(name: string): Phone {
  const found = phones.get(name);
  if (!found) throw new Error(`no phone ${name}`);
  return found;
}
