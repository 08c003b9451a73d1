/** The log as it is read, once for all who ask: ten years of it are not read, kind by kind, by each of them anew. */
import { computed, type ReadonlySignal } from "@preact/signals";
import { isDeleted } from "../../platform/store/core/overlay";
import type { Store } from "../../platform/store/types";
import { type Entry, entryOf } from "../entries";

type Rows = Pick<Store, "rows">;

interface Log {
  all: ReadonlySignal<readonly Entry[]>;
  standing: ReadonlySignal<ReadonlyMap<string, readonly Entry[]>>;
}

/** A store that only saves in another way reads by the same function. */
const logs = new WeakMap<Rows["rows"], Log>();

function logOf(store: Rows): Log {
  const found = logs.get(store.rows) ?? readLog(store);
  logs.set(store.rows, found);
  return found;
}

function readLog(store: Rows): Log {
  const rows = store.rows("entry");
  const all = computed(() => rows.value.map(entryOf));
  const standing = computed(() => {
    const found = new Map<string, Entry[]>();
    for (const entry of all.value) {
      if (entry.struck) continue;
      const same = found.get(entry.kind);
      if (same) same.push(entry);
      else found.set(entry.kind, [entry]);
    }
    return found;
  });
  return { all, standing };
}

/** Every entry that is not deleted, crossed out ones too, newest first. */
export const entriesIn = (store: Rows): ReadonlySignal<readonly Entry[]> => logOf(store).all;

const NONE: readonly Entry[] = [];

/** Those of a kind that are not crossed out, newest first; follows the log where it is read. */
export const standingIn = (store: Rows, kind: string): readonly Entry[] =>
  logOf(store).standing.value.get(kind) ?? NONE;

/** The entry as it stands; undefined where this phone does not hold it. Follows it where it is read. */
export function entryIn(store: Pick<Store, "row">, id: string | undefined): Entry | undefined {
  const row = id === undefined ? undefined : store.row("entry", id).value;
  return row && !isDeleted(row) ? entryOf(row) : undefined;
}
