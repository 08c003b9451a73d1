/**
 * What two people did to the same grass without knowing of each other (S4): found by the engine in the merged book,
 * the same on every phone, and shown until somebody settles it. No clash is stored; only its settling is.
 */
import { computed } from "@preact/signals";
import { type Recorded, recordGroups } from "../../../forms/recorded";
import { ask, type Engine } from "../../../platform/engine/ask";
import type { Args, Step, Value } from "../../../platform/engine/types";
import type { Store } from "../../../platform/store/types";
import { ceilingsArgs, ceilingZone } from "../../../records/ceilings";
import { type Entry, given } from "../../../records/entries";
import { clashEntry, mayClash } from "../../../records/log/clash-entries";
import { entriesIn, entryIn } from "../../../records/log/read";
import { productOf } from "../../../records/products";

/** As `record.clashes` says it; its key is what a settlement names. */
export type Clash = Value<"record.clashes">["clashes"][number];
export type ClashKind = Clash["kind"];

export interface ClashParts {
  store: Store;
  engine: Engine;
  /** The local day; a signal's value where it should be followed. */
  day: () => string;
  memberId: () => string | undefined;
}

export function createClashes({ store, engine, day, memberId }: ClashParts) {
  const entries = entriesIn(store);
  // Half a book would show a clash that the other half has settled.
  const after = ["entry", "product", "zone", "settlement"].map((t) => store.loaded(t));
  const limits = ask(engine, "limits.ceilings", () =>
    store.loaded("zone").value ? ceilingsArgs(store.rows("zone").value.map(ceilingZone)) : null,
  );
  function asked(): Args<"record.clashes"> | null {
    if (!limits.value) return null;
    const may = mayClash(entries.value, day());
    return {
      entries: may.map((entry) => clashEntry(entry, memberId())),
      today: day(),
      products: store
        .rows("product")
        .value.map(productOf)
        .map(({ id, interval_days }) => ({ id, ...given({ interval_days }) })),
      // Where the ceilings cannot be worked out, what lies too near is still found.
      ceilings: (limits.value.value?.zones ?? []).map(({ zone_id, ...most }) => ({
        zone_id,
        ...given(most),
      })),
    };
  }
  const said = ask(engine, "record.clashes", asked, { after });
  const settled = computed(
    () => new Set(store.rows("settlement").value.map((row): unknown => row.groups["settled"]?.value?.clash)),
  );

  /** Taken back once it was sent, the clash is open again for everybody. */
  function settle({ key, kind, entry_ids }: Clash, note = ""): Promise<Recorded> {
    const id = store.newId();
    const value = { clash: key, kind, entry_ids, ...given({ note: note.trim() }) };
    return recordGroups(store, "settlement", { id, row: undefined }, { settled: value });
  }

  return {
    /** Clashes nobody has settled, newest first. */
    open: computed<Clash[]>(() =>
      (said.value?.value?.clashes ?? []).filter(({ key }) => !settled.value.has(key)),
    ),
    /** What keeps them from being looked for, in words. */
    problem: computed(() => said.value?.error?.message),
    workingOf: ({ key }: Clash): Step[] => (said.value?.working ?? []).filter(({ of }) => of === key),
    /** Its entries as they stand, in the order done; those this phone does not hold are left out. */
    entriesOf: ({ entry_ids }: Clash): Entry[] => entry_ids.flatMap((id) => entryIn(store, id) ?? []),
    settle,
  };
}

export type ClashesModel = ReturnType<typeof createClashes>;
