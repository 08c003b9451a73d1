/** Photos of log entries and zones: the record with its thumbnail, and the full picture where it can be had. */
import { computed, type ReadonlySignal } from "@preact/signals";
import { type Recorded, record, recordRemoval } from "../../../forms/recorded";
import type { Take, Taken } from "../../../platform/photos/take";
import type { PhotoWire } from "../../../platform/photos/wire";
import type { Mutation, PictureState, Row, Store } from "../../../platform/store/types";
import { type PhotoOf as Of, photoItems } from "../../../records/log/writing";
import { unusable } from "../../../records/reading";

export type { Of };

const captioned = (id: string, caption: string): Mutation => ({
  t: "photo",
  id,
  set: { caption: { caption } },
});

export interface Photo {
  id: string;
  sha256: string;
  width: number;
  height: number;
  /** Address of the thumbnail; undefined where the record has none. */
  thumb: string | undefined;
  caption: string;
  takenAt: string | undefined;
  by: string | undefined;
}

/** The full picture, or why it is not to be had: never sent by the phone that has it, or not reached just now. */
export type Opened =
  | { kind: "here"; bytes: ArrayBuffer }
  | { kind: "never_sent" }
  | { kind: "not_reached"; message: string };

export interface PhotosParts {
  store: Store;
  /** The present household's photo requests; undefined while nobody is signed in. */
  wire: () => Promise<PhotoWire> | undefined;
  /** Reads a file as a picture; a chunk of its own, since most visits take none. */
  take: () => Promise<Take>;
  nameOf: (bytes: ArrayBuffer) => Promise<string>;
}

const NOT_ITSELF = "The picture that came is not the one that was saved. Try again later.";
const NOBODY = "Sign in to fetch the full picture.";

function photoOf({ id, by, groups }: Row): Photo {
  const of = groups["photo"]?.value ?? {};
  return {
    id,
    sha256: String(of.sha256 ?? ""),
    width: Number(of.width_px ?? 1),
    height: Number(of.height_px ?? 1),
    thumb: typeof of.thumb === "string" && of.thumb ? `data:image/jpeg;base64,${of.thumb}` : undefined,
    caption: String(groups["caption"]?.value?.caption ?? ""),
    takenAt: typeof of.taken_at === "string" ? of.taken_at : undefined,
    by,
  };
}

export function createPhotos({ store, wire, take, nameOf }: PhotosParts) {
  const { album } = store;
  const all = store.rows("photo");

  /** On a phone without room, pictures the server has make way for one it has not. */
  async function add(of: Of, ofId: string, taken: readonly Taken[]): Promise<Recorded> {
    const pictures = taken.map(({ sha256, bytes }) => ({ sha256, bytes }));
    const items = photoItems(store.newId, of, ofId, taken);
    const gone = items.map(({ t, id }) => ({ t, id, set: { deleted: { deleted: true } } }));
    try {
      return await record(store, items, gone, pictures);
    } catch (error) {
      const full = (error as { kind?: unknown } | null)?.kind === "full";
      if (!full || (await album.makeRoom()) === 0) throw error;
      return record(store, items, gone, pictures);
    }
  }

  async function fetched(sha256: string): Promise<Opened> {
    const line = await wire();
    if (!line) return { kind: "not_reached", message: NOBODY };
    const answer = await line.picture(sha256);
    if (!answer.ok) {
      return answer.status === 404
        ? { kind: "never_sent" }
        : { kind: "not_reached", message: answer.message };
    }
    if ((await nameOf(answer.value)) !== sha256) return { kind: "not_reached", message: NOT_ITSELF };
    await album.cache({ sha256, bytes: answer.value });
    return { kind: "here", bytes: answer.value };
  }

  return {
    of: (of: Of, ofId: string): ReadonlySignal<Photo[]> =>
      computed(() =>
        all.value
          .filter((row) => {
            const shows = row.groups["photo"]?.value;
            return shows?.of === of && shows.of_id === ofId && !unusable(row).length;
          })
          .map(photoOf),
      ),
    /** Where the full picture is; undefined where it is not on this phone. */
    stateOf: (sha256: string): PictureState | undefined => album.states.value.get(sha256),
    /** Why the server does not keep it. */
    why: (sha256: string) => album.why(sha256),
    /** What keeps photos from being sent, in words; undefined where nothing but the network does. */
    trouble: album.trouble,
    /** Reads a file of the camera or the roll. Raises an error where it is no picture. */
    take: async (file: Blob): Promise<Taken> => (await take())(file),
    add,
    async open({ sha256 }: Photo): Promise<Opened> {
      const bytes = await album.bytes(sha256);
      return bytes ? { kind: "here", bytes } : fetched(sha256);
    },
    setCaption: ({ id, caption: was }: Photo, caption: string) =>
      record(store, [captioned(id, caption)], [captioned(id, was)]),
    remove: ({ id }: Photo) => recordRemoval(store, "photo", id),
  };
}

export type PhotosModel = ReturnType<typeof createPhotos>;
