import { describe, expect, it } from "vitest";
import { nameOf, type Taken } from "../../../platform/photos/take";
import type { PhotoWire } from "../../../platform/photos/wire";
import type { Failure, Outcome } from "../../../platform/sync/http";
import { type FakeBook, fakeBook, groups } from "../../../records/fake-book";
import { checkGroup } from "../../../records/kinds";
import { createWriting, photoItems } from "../../../records/log/writing";
import { createPhotos } from "./photos";

const BYTES = Uint8Array.from([1, 2, 3, 4]);
const ZONE = "0190a000-0000-7000-8000-000000000001";
const NO_SIGNAL: Failure = { ok: false, status: 0, code: "no_answer", message: "No signal." };
const NOT_THERE: Failure = { ok: false, status: 404, code: "not_found", message: "Nothing." };

async function taken(): Promise<Taken> {
  const sha256 = await nameOf(BYTES);
  return {
    sha256,
    bytes: BYTES.buffer,
    width: 40,
    height: 30,
    thumb: "AAAA",
    takenAt: "2026-05-01T18:30:00+02:00",
  };
}

function model(book: FakeBook = fakeBook(), answer: Outcome<ArrayBuffer> = NO_SIGNAL) {
  const asked: string[] = [];
  const wire = {
    picture: async (name: string) => {
      asked.push(name);
      return answer;
    },
  } as unknown as PhotoWire;
  const photos = createPhotos({
    store: book,
    wire: async () => wire,
    take: async () => taken,
    nameOf: (bytes) => nameOf(new Uint8Array(bytes)),
  });
  return { book, photos, asked };
}

async function known(book: FakeBook) {
  const { sha256 } = await taken();
  const photo = {
    of: "zone",
    of_id: ZONE,
    sha256,
    width_px: 40,
    height_px: 30,
    size_bytes: 4,
    thumb: "AAAA",
  };
  book.put({ t: "photo", id: "p1", groups: groups({ photo, caption: { caption: "Bare patch" } }) });
}

describe("S19 photos of zones and entries", () => {
  it("are saved with their picture, as the contract between phone and server allows", async () => {
    const { book, photos } = model();
    await photos.add("zone", ZONE, [await taken()]);
    const [[item] = []] = book.saved;
    expect(item?.t).toBe("photo");
    expect(checkGroup("photo", "photo", item?.set?.["photo"] as Record<string, unknown>, "us")).toEqual({});
    const [photo] = photos.of("zone", ZONE).value;
    expect(photo).toMatchObject({ width: 40, height: 30, caption: "", thumb: "data:image/jpeg;base64,AAAA" });
    expect(photos.stateOf(photo?.sha256 ?? "")).toBe("waiting");
    expect(photos.of("entry", ZONE).value).toEqual([]);
    expect(photos.of("zone", "another").value).toEqual([]);
  });

  it("go into the book in the same save as the entry they belong to", async () => {
    const { book, photos } = model();
    const parts = { store: book, now: () => "2026-05-01T18:30:00+02:00", memberId: () => "m1" };
    const seen = { kind: "observation", facts: { text: "Rust" }, zoneIds: [ZONE], taken: [await taken()] };
    const { id } = await createWriting(parts).add(seen);
    expect(book.saved.length).toBe(1);
    expect(book.saved[0]?.map(({ t }) => t)).toEqual(["entry", "photo"]);
    expect(photos.of("entry", id).value.length).toBe(1);
    expect(book.pictures.size).toBe(1);
  });

  it("leave out when a picture was taken where its file does not say", async () => {
    const [item] = photoItems(() => "p1", "zone", ZONE, [{ ...(await taken()), takenAt: undefined }]);
    expect(item?.set?.["photo"]).not.toHaveProperty("taken_at");
  });

  it("are captioned, taken out and put back without losing a word", async () => {
    const { book, photos } = model();
    await known(book);
    const shown = photos.of("zone", ZONE);
    const [photo] = shown.value;
    if (!photo) throw new Error("no photo");
    expect(photo.caption).toBe("Bare patch");
    await photos.setCaption(photo, "Bare patch, sown");
    expect(shown.value[0]?.caption).toBe("Bare patch, sown");
    const gone = await photos.remove(photo);
    expect(shown.value).toEqual([]);
    await gone.back();
    expect(shown.value[0]?.caption).toBe("Bare patch, sown");
  });

  it("make room on a full phone by letting go of what the server has, and say so when there is none", async () => {
    const { book, photos } = model();
    const save = book.save.bind(book);
    let room = 0;
    let rooms = 1;
    book.save = async (...given) => {
      if (room === 0) throw Object.assign(new Error("This phone has no room left."), { kind: "full" });
      return save(...given);
    };
    book.album.makeRoom = async () => {
      room = rooms;
      return rooms;
    };
    await photos.add("zone", ZONE, [await taken()]);
    expect(photos.of("zone", ZONE).value.length).toBe(1);
    room = rooms = 0;
    await expect(photos.add("zone", ZONE, [await taken()])).rejects.toThrow("no room left");
  });
});

describe("F47 the full picture", () => {
  it("is shown from this phone without asking anybody", async () => {
    const { book, photos, asked } = model();
    await photos.add("zone", ZONE, [await taken()]);
    const [photo] = photos.of("zone", ZONE).value;
    expect(await photos.open(photo as never)).toEqual({ kind: "here", bytes: BYTES.buffer });
    expect(asked).toEqual([]);
    expect(book.pictures.size).toBe(1);
  });

  it("is fetched once and kept", async () => {
    const { book, photos, asked } = model(undefined, { ok: true, status: 200, value: BYTES.slice().buffer });
    await known(book);
    const [photo] = photos.of("zone", ZONE).value;
    for (let times = 0; times < 2; times += 1)
      expect(await photos.open(photo as never)).toMatchObject({ kind: "here" });
    expect(asked.length).toBe(1);
    expect(photos.stateOf(photo?.sha256 ?? "")).toBe("sent");
  });

  it("was on a phone that never sent it: the others say so and keep the thumbnail", async () => {
    const { book, photos } = model(undefined, NOT_THERE);
    await known(book);
    const [photo] = photos.of("zone", ZONE).value;
    expect(await photos.open(photo as never)).toEqual({ kind: "never_sent" });
    expect(photo?.thumb).toBe("data:image/jpeg;base64,AAAA");
  });

  it("is not to be had without signal, which is no verdict; and what is not itself is not shown", async () => {
    const without = model();
    await known(without.book);
    const [photo] = without.photos.of("zone", ZONE).value;
    expect(await without.photos.open(photo as never)).toEqual({ kind: "not_reached", message: "No signal." });
    const other = model(undefined, { ok: true, status: 200, value: Uint8Array.from([9]).buffer });
    await known(other.book);
    expect(await other.photos.open(photo as never)).toMatchObject({ kind: "not_reached" });
    expect(other.book.pictures.size).toBe(0);
  });
});
