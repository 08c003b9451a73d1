// @vitest-environment node
import { describe, expect, it, vi } from "vitest";
import { newId } from "../store/core/uuid7";
import { fakeAlbum, photoRow, same, savePhoto, somePicture } from "./fake-photos";
import { letGo } from "./keeping";
import { nameOf } from "./take";
import { CHUNK_BYTES } from "./wire";

const album = fakeAlbum();
const PICTURE = somePicture(CHUNK_BYTES + 100);
const DAY_MS = 24 * 3600_000;
const plenty = async () => ({ usage: 10, quota: 100 });

describe("F46 the same photo twice", () => {
  it("is kept once on a phone, whatever it was added to, and sent once", async () => {
    const name = await savePhoto(album.book, PICTURE);
    expect(await savePhoto(album.book, PICTURE.slice())).toBe(name);
    expect(await album.book.db.photos.count()).toBe(1);
    await album.queue.start();
    await savePhoto(album.book, PICTURE.slice());
    expect((await photoRow(album.book, name))?.state).toBe("sent");
    expect(album.server.chunks).toBe(2);
  });

  it("is not sent by a second phone once the server has it", async () => {
    const name = await savePhoto(album.book, PICTURE);
    await album.queue.start();
    const chunks = album.server.chunks;
    const second = album.phone();
    await savePhoto(second.book, PICTURE.slice());
    await second.queue.start();
    expect((await photoRow(second.book, name))?.state).toBe("sent");
    expect(album.server.chunks).toBe(chunks);
  });

  it("comes whole when two phones send it at the same time", async () => {
    const name = await savePhoto(album.book, PICTURE);
    const second = album.phone();
    await savePhoto(second.book, PICTURE.slice());
    await Promise.all([album.queue.start(), second.queue.start()]);
    for (const { book } of [album, second]) expect((await photoRow(book, name))?.state).toBe("sent");
    expect(same(album.server.whole.get(name), PICTURE)).toBe(true);
  });
});

describe("S14 a photo and its record", () => {
  it("are saved together or not at all", async () => {
    const picture = { sha256: await nameOf(PICTURE), bytes: PICTURE.buffer };
    const spoilt = { t: "photo", id: newId(), set: { photo: { at: Number.NaN } } };
    await expect(album.book.save([spoilt], [picture])).rejects.toThrow(TypeError);
    expect(await album.book.db.photos.count()).toBe(0);
    vi.spyOn(album.book.db.outbox, "add").mockRejectedValueOnce(new Error("the phone is full"));
    await expect(savePhoto(album.book, PICTURE)).rejects.toThrow();
    expect(await album.book.db.photos.count()).toBe(0);
    expect(await album.book.db.outbox.count()).toBe(0);
  });

  it("count apart: entries that wait and photos that wait", async () => {
    await savePhoto(album.book, PICTURE);
    const { standing } = album.book;
    await vi.waitFor(() => expect(standing.value).toMatchObject({ waiting: 1, photosWaiting: 1 }));
    await album.queue.start();
    await vi.waitFor(() => expect(standing.value).toMatchObject({ waiting: 1, photosWaiting: 0 }));
  });
});

describe("P9 the full picture stays", () => {
  it("on the phone until the server has it whole, however old it is and however short room is", async () => {
    const name = await savePhoto(album.book, PICTURE);
    album.world.time += 400 * DAY_MS;
    await letGo(album.book.db, album.wire, album.world.now(), async () => ({ usage: 99, quota: 100 }));
    expect(await album.book.album.makeRoom()).toBe(0);
    expect((await photoRow(album.book, name))?.state).toBe("waiting");
  });

  it("for 30 days after, then it goes, the oldest first", async () => {
    const old = await savePhoto(album.book, somePicture(900, 1));
    await album.queue.start();
    album.world.time += 29 * DAY_MS;
    const young = await savePhoto(album.book, somePicture(900, 2));
    await album.queue.kick();
    await letGo(album.book.db, album.wire, album.world.now(), plenty);
    expect(await photoRow(album.book, old)).toBeDefined();
    album.world.time += 2 * DAY_MS;
    await letGo(album.book.db, album.wire, album.world.now(), plenty);
    expect(await photoRow(album.book, old)).toBeUndefined();
    expect(await photoRow(album.book, young)).toBeDefined();
  });

  it("goes earlier when room is short, oldest first and no more than needed", async () => {
    const names: string[] = [];
    for (const seed of [1, 2, 3]) {
      album.world.time += 1000;
      names.push(await savePhoto(album.book, somePicture(900, seed)));
    }
    await album.queue.start();
    // 100 bytes above what is enough: one picture is enough.
    await letGo(album.book.db, album.wire, album.world.now(), async () => ({ usage: 8100, quota: 10_000 }));
    const left = await Promise.all(names.map((name) => photoRow(album.book, name)));
    expect(left.map((row) => row !== undefined)).toEqual([false, false, true]);
  });

  it("when the server has lost it meanwhile, and is sent again (F22)", async () => {
    const name = await savePhoto(album.book, PICTURE);
    await album.queue.start();
    album.server.whole.clear();
    album.world.time += 60 * DAY_MS;
    await letGo(album.book.db, album.wire, album.world.now(), plenty);
    expect((await photoRow(album.book, name))?.state).toBe("waiting");
    await album.queue.kick();
    expect(same(album.server.whole.get(name), PICTURE)).toBe(true);
  });

  it("and is asked after when the server was restored from a backup (S11, F22)", async () => {
    const name = await savePhoto(album.book, PICTURE);
    const { db } = album.book;
    const epoch = async (of: string) => {
      const state = await db.meta.get("state");
      await db.meta.put({ ...(state as Extract<typeof state, { key: "state" }>), epoch: of });
    };
    await epoch("first");
    await album.queue.start();
    album.server.whole.clear();
    await album.queue.kick();
    expect(album.server.whole.size).toBe(0);
    await epoch("second");
    await album.queue.kick();
    expect(same(album.server.whole.get(name), PICTURE)).toBe(true);
  });
});
