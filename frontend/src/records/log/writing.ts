/** How entries are written: one more, or something laid over one that stands. */
import type { Taken } from "../../platform/photos/take";
import type { Mutation, Store } from "../../platform/store/types";
import { type Entry, given } from "../entries";
import { amended, type Laid } from "../overlay";

export type PhotoOf = "entry" | "zone";

/** The records of photos just taken, to be saved with what they show and with their pictures in one go. */
export function photoItems(
  newId: () => string,
  of: PhotoOf,
  ofId: string,
  taken: readonly Taken[],
): Mutation[] {
  return taken.map(({ sha256, bytes, width, height, thumb, takenAt }) => ({
    t: "photo",
    id: newId(),
    set: {
      photo: {
        of,
        of_id: ofId,
        sha256,
        width_px: width,
        height_px: height,
        size_bytes: bytes.byteLength,
        thumb,
        ...given({ taken_at: takenAt }),
      },
    },
  }));
}

export interface WritingParts {
  store: Store;
  now: () => string;
  memberId: () => string | undefined;
}

export interface NewEntry {
  kind: string;
  facts: Record<string, unknown>;
  zoneIds?: readonly string[];
  at?: string | undefined;
  taken?: readonly Taken[] | undefined;
}

export function createWriting({ store, now, memberId }: WritingParts) {
  return {
    async add({ kind, facts, zoneIds = [], at, taken = [] }: NewEntry): Promise<{ op: string; id: string }> {
      const id = store.newId();
      const body = {
        ...given({ kind, occurred_at: at ?? now(), by: memberId(), ...facts }),
        zone_ids: [...zoneIds],
      };
      const photos = photoItems(store.newId, "entry", id, taken);
      const { op } = await store.save([{ t: "entry", id, body }, ...photos], taken);
      return { op, id };
    },
    /** Writes an overlay anew and keeps inside it what stood there before. */
    async amend({ row }: Entry, group: Laid["group"], field: string, value: object): Promise<void> {
      await store.save([amended(row, { group, field, value }, { by: memberId(), at: now() })]);
    },
  };
}
