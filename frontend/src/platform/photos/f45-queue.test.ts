// @vitest-environment node
import { describe, expect, it, vi } from "vitest";
import { CAP_MS } from "../sync/backoff";
import { json } from "../sync/fake/server";
import { cut, cutAfter, type Fault, fakeAlbum, photoRow, same, savePhoto, somePicture } from "./fake-photos";
import { CHUNK_BYTES } from "./wire";

const album = fakeAlbum();
const PICTURE = somePicture(CHUNK_BYTES * 4 + 1000);

const html: Fault = () => new Response("<html>Welcome</html>", { headers: { "Content-Type": "text/html" } });
const refusal =
  (status: number, headers = {}): Fault =>
  () =>
    json(status, { code: "no", message: "No." }, headers);

async function allSent(): Promise<boolean> {
  return (await album.book.db.photos.where("state").notEqual("sent").count()) === 0;
}

/** Lets time pass until nothing waits; how many timers that took. */
async function untilSent(most: number): Promise<number> {
  for (let tries = 0; tries <= most; tries += 1) {
    if (await allSent()) return tries;
    await album.world.runNext();
  }
  throw new Error(`not sent after ${most} tries`);
}

describe("F45 the upload of a photo is cut 20 times", () => {
  it("goes on each time from what the server has, and sends no chunk again that was taken", async () => {
    const name = await savePhoto(album.book, PICTURE);
    const cuts = Array.from({ length: 20 }, (_, at) => (at % 5 === 4 ? cutAfter : cut));
    const pass: Fault = (reached) => reached();
    // Only the chunks are cut: each try first asks where it stands.
    album.server.faults.push(...cuts.flatMap((fault) => [pass, fault]));
    await album.queue.start();
    expect(await untilSent(60)).toBe(20);
    expect(same(album.server.whole.get(name), PICTURE)).toBe(true);
    expect(album.server.chunks).toBe(20 + 5 - 4);
    expect((await photoRow(album.book, name))?.state).toBe("sent");
  });

  it("goes on after the app was killed between two chunks and started anew", async () => {
    const name = await savePhoto(album.book, PICTURE);
    const pass: Fault = (reached) => reached();
    album.server.faults.push(pass, pass, pass, () => new Promise(() => undefined));
    void album.queue.start();
    await vi.waitFor(() => expect(album.server.chunks).toBe(3));
    album.book.close();
    const { book, queue } = album.phone(album.book.name);
    await queue.start();
    expect(same(album.server.whole.get(name), PICTURE)).toBe(true);
    expect((await photoRow(book, name))?.state).toBe("sent");
    expect(album.server.chunks).toBe(3 + 3);
  });

  it("is tried again for ever, at most 5 minutes apart, whatever answers (S17, F19, F20)", async () => {
    const name = await savePhoto(album.book, PICTURE);
    const faults = [
      cut,
      html,
      refusal(401),
      refusal(404),
      refusal(429),
      refusal(500),
      refusal(503),
      refusal(507),
    ];
    const odd: Fault[] = [
      () => json(200, {}),
      () => Response.redirect("http://portal.example/", 302),
      refusal(400),
    ];
    album.server.always = cut;
    await album.queue.start();
    for (const fault of [...faults, ...odd, ...faults, ...odd]) {
      album.server.always = fault;
      await album.queue.kick();
      expect((await photoRow(album.book, name))?.state).toBe("waiting");
      expect(album.world.nextIn()).toBeLessThanOrEqual(CAP_MS);
    }
    album.server.always = undefined;
    await album.queue.kick();
    expect(same(album.server.whole.get(name), PICTURE)).toBe(true);
  });

  it("waits as long as the server asks (F20)", async () => {
    await savePhoto(album.book, PICTURE);
    album.server.faults.push(refusal(429, { "Retry-After": "90" }));
    const began = album.world.now();
    await album.queue.start();
    await album.world.wake();
    while (album.server.asked.length === 1) await album.world.runNext();
    expect(album.world.now() - began).toBe(90_000);
    expect(await allSent()).toBe(true);
  });

  it("follows a save within 2 seconds", async () => {
    await album.queue.start();
    await savePhoto(album.book, PICTURE);
    await vi.waitFor(() => expect(album.world.nextIn()).toBe(2000));
    await album.world.runNext();
    expect(await allSent()).toBe(true);
  });

  it("sends nothing under another person's sign-in (F18)", async () => {
    album.who = "other";
    await savePhoto(album.book, PICTURE);
    await album.queue.start();
    expect(album.server.asked).toEqual([]);
    album.who = "same";
    await album.queue.kick();
    expect(await allSent()).toBe(true);
  });
});

describe("P8 one photo does not hold up the others", () => {
  it("sends the rest while one is refused as a request", async () => {
    const bad = await savePhoto(album.book, somePicture(900, 1));
    album.world.time += 1000;
    const good = await savePhoto(album.book, somePicture(900, 2));
    album.server.always = (reached, { what }) => (what.startsWith(bad) ? json(413, {}) : reached());
    await album.queue.start();
    expect((await photoRow(album.book, good))?.state).toBe("sent");
    expect((await photoRow(album.book, bad))?.state).toBe("waiting");
  });

  it("sets aside one that the server does not keep, with its reason and its bytes (P6, P9)", async () => {
    const bytes = somePicture(900, 1);
    const bad = await savePhoto(album.book, bytes);
    const good = await savePhoto(album.book, somePicture(900, 2));
    album.server.refuses.set(bad, "location_inside");
    await album.queue.start();
    const row = await photoRow(album.book, bad);
    expect(row).toMatchObject({ state: "refused", why: { code: "location_inside" } });
    expect(new Uint8Array(row?.bytes ?? new ArrayBuffer(0))).toEqual(bytes);
    expect((await photoRow(album.book, good))?.state).toBe("sent");
    const asked = album.server.asked.length;
    await album.queue.kick();
    expect(album.server.asked.length).toBe(asked);
    expect(await album.book.exportAll()).toMatchObject({ photos: [{ sha256: bad, state: "refused" }] });
  });

  it("sends one again that was mangled on the way, and sets aside one that was damaged on the phone", async () => {
    const mangled = await savePhoto(album.book, somePicture(900, 1));
    album.server.begun.set(mangled, new Uint8Array([1, 2, 3]));
    const damaged = await savePhoto(album.book, somePicture(900, 2));
    await album.book.db.photos.update(damaged, { bytes: somePicture(900, 3).buffer });
    await album.queue.start();
    expect((await photoRow(album.book, mangled))?.state).toBe("waiting");
    expect(await photoRow(album.book, damaged)).toMatchObject({
      state: "refused",
      why: { code: "damaged_here" },
    });
    await album.queue.kick();
    expect((await photoRow(album.book, mangled))?.state).toBe("sent");
  });

  it("gives a stuck one up for now: a server that never gets further is asked a few times, not for ever", async () => {
    await savePhoto(album.book, PICTURE);
    album.server.always = () => json(200, { have_bytes: 0, complete: false });
    await album.queue.start();
    expect(album.server.asked.length).toBeLessThan(10);
    expect(await allSent()).toBe(false);
  });

  it("says in words what stands in the way, until it does no longer", async () => {
    await savePhoto(album.book, PICTURE);
    album.server.faults.push(() => json(507, { code: "photos_full", message: "No room for more photos." }));
    const { trouble } = album.book.album;
    await album.queue.start();
    await vi.waitFor(() => expect(trouble.value).toBe("No room for more photos."));
    await album.queue.kick();
    await vi.waitFor(() => expect(trouble.value).toBeUndefined());
  });
});
