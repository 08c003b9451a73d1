/**
 * Which rows of a long log are its newest, noted for the next opening: a page of them is read by their keys, while all of
 * it takes a slow phone seconds. It says which rows to read, never what is in them, and how far the table had been
 * written: what was written since is read beside them, so an old note leaves nothing out.
 */
import { recall, remember } from "../../session/memory";
import type { BookDb, LiveRow } from "../db";

const KEY = "evenfall.newest";
/** More than a page of the log draws at first, parts of jobs among them. */
export const NEWEST = 150;
/** Reading more than this would take as long as is won. */
const MOST_SINCE = 100;

interface Placed {
  row: Pick<LiveRow, "key">;
  at: number;
}

interface Note {
  book: string;
  /** The last write that was seen. */
  seen: number;
  /** Moment of the oldest of them; null where they are all there are. */
  from: number | null;
  keys: string[];
}

export function noteNewest(book: string, seen: number, order: readonly Placed[]): void {
  const newest = order.slice(0, NEWEST);
  const from = order.length > NEWEST ? (newest.at(-1)?.at ?? null) : null;
  remember(KEY, { book, seen, from, keys: newest.map(({ row }) => row.key) } satisfies Note);
}

export interface NewestRows {
  rows: LiveRow[];
  /** Older ones may be missing. */
  from: number;
}

/** Those noted and what was written since; undefined where that cannot be told. */
export async function readNewest(db: BookDb, t: string): Promise<NewestRows | undefined> {
  const note = recall(KEY) as Note | undefined;
  if (note?.book !== db.name) return undefined;
  return db.transaction("r", db.live, async () => {
    const written = db.live.where("[t+rev]");
    const last = await written.between([t, -1], [t, Number.MAX_SAFE_INTEGER]).last();
    // A table that was cleared counts anew.
    if (!last || last.rev < note.seen) return undefined;
    const later = written.between([t, note.seen], [t, Number.MAX_SAFE_INTEGER], false, true);
    const since = await later.limit(MOST_SINCE).toArray();
    if (since.length === MOST_SINCE) return undefined;
    const noted = await db.live.bulkGet(note.keys);
    const rows = [...noted.filter((row) => row !== undefined), ...since];
    return { rows, from: note.from ?? Number.NEGATIVE_INFINITY };
  });
}
