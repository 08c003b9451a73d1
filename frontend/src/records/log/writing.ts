/** How entries are written: one more, or something laid over one that stands. */

import { type Recorded, record } from "../../forms/recorded";
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
  note?: string | undefined;
}

/** What an overlay says of an entry it was never laid over. */
function unsaid(entry: Entry, group: Laid["group"]): object {
  const SAYS = { note: "", when: entry.firstAt, void: false, learning: false };
  const FIELD = { note: "note", when: "occurred_at", void: "void", learning: "bad" };
  return { [FIELD[group]]: SAYS[group] };
}

export function createWriting({ store, now, memberId }: WritingParts) {
  return {
    /** Taken back once it was sent, it is crossed out for everybody. */
    async add({ kind, facts, zoneIds = [], at, taken = [], note }: NewEntry): Promise<Recorded> {
      const id = store.newId();
      const body = {
        ...given({ kind, occurred_at: at ?? now(), by: memberId(), ...facts }),
        zone_ids: [...zoneIds],
      };
      const photos = photoItems(store.newId, "entry", id, taken);
      const said = note?.trim() ? { set: { note: { note } } } : {};
      const undone = { void: true, why: "Undone at once", by: memberId() ?? null, at: now() };
      const over = { t: "entry", id, set: { void: undone } };
      return record(store, [{ t: "entry", id, body, ...said }, ...photos], [over], taken);
    },
    /** Writes an overlay anew and keeps inside it what stood there before. */
    async amend(entry: Entry, group: Laid["group"], field: string, value: object): Promise<Recorded> {
      const { row } = entry;
      const by = memberId();
      const made = amended(row, { group, field, value }, { by, at: now() });
      // Taken back once it was sent, what stood before is said once more: nothing leaves the history.
      const written = { value: made.set?.[group], version: null };
      const after = { ...row, groups: { ...row.groups, [group]: written } };
      const { [field]: was, why } = row.groups[group]?.value ?? unsaid(entry, group);
      const again = { [field]: was, ...("why" in value ? { why: why ?? "" } : {}) };
      const over = amended(after, { group, field, value: again }, { by, at: now() });
      return record(store, [made], [over]);
    },
  };
}
