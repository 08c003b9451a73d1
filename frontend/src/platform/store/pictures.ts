/** The full pictures of photos, as bytes in a table of their own: kept, counted and let go without reading them all. */
import type { ReadonlySignal } from "@preact/signals";
import Dexie from "dexie";
import { base64 } from "./core/base64";
import type { BookDb, PhotoRow, PhotoState } from "./db";
import { follow } from "./live";
import type { Album, Picture, PictureState } from "./types";

const STATES: readonly PictureState[] = ["waiting", "sent", "refused"];
/** How much goes at once when room is short: a few pictures. */
const ROOM_BYTES = 4_000_000;

function rowOf({ sha256, bytes }: Picture, state: PictureState, nowMs: number): PhotoRow {
  const size = bytes.byteLength;
  const at = new Date(nowMs).toISOString();
  return { sha256, bytes, size, state, have: state === "sent" ? size : 0, at };
}

/** Inside a transaction with `photos`: new pictures wait to be sent; one that is here already stays as it is (F46). */
export async function keepPictures(db: BookDb, pictures: readonly Picture[], nowMs: number): Promise<void> {
  for (const picture of pictures) {
    const known = await db.photos.where("sha256").equals(picture.sha256).count();
    if (known === 0) await db.photos.add(rowOf(picture, "waiting", nowMs));
  }
}

/** Names of the pictures in one state, oldest first, none of them read. */
export function picturesIn(
  db: BookDb,
  state: PictureState,
  until: unknown = Dexie.maxKey,
): Promise<string[]> {
  return db.photos
    .where("[state+at]")
    .between([state, Dexie.minKey], [state, until], true, true)
    .primaryKeys();
}

async function statesOf(db: BookDb): Promise<ReadonlyMap<string, PictureState>> {
  const found = await db.transaction("r", db.photos, () =>
    Promise.all(STATES.map((state) => picturesIn(db, state))),
  );
  return new Map(STATES.flatMap((state, at) => (found[at] ?? []).map((name) => [name, state] as const)));
}

/**
 * Lets go of pictures the server is known to have, oldest first, until so many bytes are free. What waits is never
 * touched (P9). Returns how many went.
 */
export async function freeSent(db: BookDb, names: readonly string[], mostBytes: number): Promise<number> {
  let freed = 0;
  let gone = 0;
  for (const name of names) {
    if (freed >= mostBytes) break;
    await db.transaction("rw", db.photos, async () => {
      const row = await db.photos.get(name);
      if (row?.state !== "sent") return;
      await db.photos.delete(name);
      freed += row.size;
      gone += 1;
    });
  }
  return gone;
}

/** A query followed from its first reader on. */
function lazily<V>(query: () => Promise<V>, initial: V, closers: (() => void)[]): () => ReadonlySignal<V> {
  let followed: ReadonlySignal<V> | undefined;
  return () => {
    if (!followed) {
      const following = follow(query, initial);
      closers.push(following.close);
      followed = following.value;
    }
    return followed;
  };
}

async function troubleOf(db: BookDb): Promise<string | undefined> {
  return ((await db.meta.get("photos")) as PhotoState | undefined)?.trouble;
}

export function albumOf(db: BookDb, now: () => number, closers: (() => void)[]): Album {
  const states = lazily(() => statesOf(db), new Map() as ReadonlyMap<string, PictureState>, closers);
  const trouble = lazily(() => troubleOf(db), undefined, closers);
  return {
    get states() {
      return states();
    },
    get trouble() {
      return trouble();
    },
    bytes: async (sha256) => (await db.photos.get(sha256))?.bytes,
    why: async (sha256) => (await db.photos.get(sha256))?.why,
    async cache(picture) {
      try {
        await db.photos.add(rowOf(picture, "sent", now()));
      } catch {
        // Here already, or no room: it is shown all the same, and fetched again another time.
      }
    },
    makeRoom: async () => freeSent(db, await picturesIn(db, "sent"), ROOM_BYTES),
  };
}

/** For an export: the pictures that only this phone has, as base64, since JSON holds no bytes. */
export async function unsentPictures(db: BookDb): Promise<object[]> {
  const rows = await db.photos.where("state").anyOf("waiting", "refused").toArray();
  return rows.map(({ bytes, ...row }) => ({ ...row, jpeg_base64: base64(new Uint8Array(bytes)) }));
}
