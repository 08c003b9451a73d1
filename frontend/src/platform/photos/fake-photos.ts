/** For tests only: the server's pictures in memory, reached through `fetch` like the real ones, with faults to order. */
import { afterEach, beforeEach } from "vitest";
import { type Book, openBook } from "../store/book";
import { newId } from "../store/core/uuid7";
import type { PhotoRow } from "../store/db";
import { json } from "../sync/fake/server";
import { FakeWorld } from "../sync/fake/world";
import { createPhotoQueue, type PhotoQueue } from "./queue";
import { nameOf } from "./take";
import { type PhotoWire, photoWire } from "./wire";

interface Asked {
  method: string;
  /** What of the address follows `photos/`. */
  what: string;
  bytes: Uint8Array;
  range: string;
}

/** What happens to one request; `reached` runs the real answer, so that a fault can come after it. */
export type Fault = (reached: () => Promise<Response>, asked: Asked) => Promise<Response> | Response;

export const cut: Fault = () => Promise.reject(new TypeError("the line broke"));
export const cutAfter: Fault = async (reached) => {
  await reached();
  throw new TypeError("the line broke");
};

export class FakePhotos {
  readonly whole = new Map<string, Uint8Array>();
  readonly begun = new Map<string, Uint8Array>();
  readonly asked: Asked[] = [];
  readonly faults: Fault[] = [];
  always: Fault | undefined;
  /** Codes under which a picture is refused, by name. */
  readonly refuses = new Map<string, string>();

  readonly fetch = async (address: string | URL | Request, init: RequestInit = {}): Promise<Response> => {
    const what = String(address).replace(/^.*\/photos\//, "");
    const bytes = new Uint8Array((init.body as ArrayBuffer) ?? new ArrayBuffer(0));
    const range = String((init.headers as Record<string, string> | undefined)?.["Content-Range"] ?? "");
    const asked = { method: init.method ?? "GET", what, bytes, range };
    this.asked.push(asked);
    const fault = this.faults.shift() ?? this.always;
    const reached = () => this.answer(asked, init.body);
    return fault ? fault(reached, asked) : reached();
  };

  /** How many chunks arrived, whatever became of their answers. */
  get chunks(): number {
    return this.asked.filter(({ method }) => method === "PUT").length;
  }

  private async answer({ method, what, bytes, range }: Asked, body: unknown): Promise<Response> {
    const [name = "", end] = what.replace(/\?.*/, "").split("/");
    if (name === "missing") {
      const { sha256 } = JSON.parse(String(body)) as { sha256: string[] };
      return json(200, { missing: sha256.filter((one) => !this.whole.has(one)) });
    }
    if (end === "upload") return json(200, this.standing(name));
    if (method === "PUT") return this.take(name, bytes, range);
    const found = this.whole.get(name);
    if (!found) return json(404, { code: "not_found", message: "There is nothing here." });
    return new Response(found.slice(), { headers: { "Content-Type": "image/jpeg" } });
  }

  private standing(name: string) {
    const whole = this.whole.get(name);
    if (whole) return { have_bytes: whole.length, complete: true };
    return { have_bytes: this.begun.get(name)?.length ?? 0, complete: false };
  }

  private async take(name: string, bytes: Uint8Array, range: string): Promise<Response> {
    if (this.whole.has(name)) return json(200, this.standing(name));
    const [first = 0, last = 0, total = 0] = (range.match(/\d+/g) ?? []).map(Number);
    if (last - first + 1 !== bytes.length) return json(400, { code: "bad_range", message: "Untrue." });
    const have = this.begun.get(name) ?? new Uint8Array();
    if (first > have.length) return json(409, { code: "gap", message: "A gap." });
    const now = new Uint8Array(Buffer.concat([have, bytes.subarray(have.length - first)]));
    this.begun.set(name, now);
    if (now.length < total) return json(200, this.standing(name));
    this.begun.delete(name);
    const code = this.refuses.get(name) ?? ((await nameOf(now)) === name ? undefined : "wrong_hash");
    if (code) return json(422, { code, message: `Refused: ${code}.` });
    this.whole.set(name, now);
    return json(200, this.standing(name));
  }
}

export interface PhotoPhone {
  book: Book;
  queue: PhotoQueue;
  wire: PhotoWire;
}

export interface FakeAlbum extends PhotoPhone {
  server: FakePhotos;
  world: FakeWorld;
  who: "same" | "other" | "unknown";
  phone(name?: string): PhotoPhone;
}

/** To be called once in a test file; the object is filled afresh before each test. */
export function fakeAlbum(): FakeAlbum {
  const album = {} as FakeAlbum;
  let closing: (() => void)[] = [];
  album.phone = (name = newId()) => {
    const { world, server } = album;
    const book = openBook(name, { now: () => world.now(), persist: undefined });
    const wire = photoWire("h1", { fetch: server.fetch, timeoutMs: 60_000 });
    const queue = createPhotoQueue({ book, household: "h1", confirm: async () => album.who, wire, world });
    closing.push(() => queue.stop(), book.close);
    return { book, queue, wire };
  };
  beforeEach(() => {
    album.server = new FakePhotos();
    album.world = new FakeWorld();
    album.who = "same";
    Object.assign(album, album.phone());
  });
  afterEach(() => {
    for (const close of closing) close();
    closing = [];
  });
  return album;
}

/** Bytes that stand for a picture; another one for each seed. */
export function somePicture(size: number, seed = 1): Uint8Array<ArrayBuffer> {
  return Uint8Array.from({ length: size }, (_, at) => (at * 31 + seed * 97 + (at >> 8)) % 251);
}

/** Whether two pictures are the same; quicker than the runner's own comparison, which takes seconds for a megabyte. */
export const same = (one: Uint8Array | undefined, other: Uint8Array): boolean =>
  one !== undefined && Buffer.compare(one, other) === 0;

/** Saves a photo of a zone with its picture; its name. */
export async function savePhoto(book: Book, bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const sha256 = await nameOf(bytes);
  const photo = { of: "zone", of_id: newId(), sha256, width_px: 40, height_px: 30, size_bytes: bytes.length };
  const picture = { sha256, bytes: bytes.buffer };
  await book.save([{ t: "photo", id: newId(), set: { photo } }], [picture]);
  return sha256;
}

export const photoRow = (book: Book, name: string): Promise<PhotoRow | undefined> => book.db.photos.get(name);
