/**
 * What two people did to the same grass without knowing of each other (S4): found by the engine in the merged book,
 * the same on every phone, and shown until somebody settles it. No clash is stored; only its settling is.
 */
import { computed } from "@preact/signals";
import type { Step } from "../engine/types";
import { daysBetween } from "../format";
import type { Row, Store } from "../store/types";
import { ask, type Engine } from "./ask";
import { type Entry, entryOf, given, isAhead } from "./entries";
import { ownFields } from "./kinds";
import { productOf } from "./shed-facts";
import { mostAYear } from "./walk-year";

/** As `record.clashes` says it. */
export interface Clash {
  /** Stays the same until another entry joins: what a settlement names. */
  key: string;
  kind: "interval" | "nitrogen" | "same_job";
  /** In the order done. */
  entry_ids: string[];
  zone_ids: string[];
  /** Day of the latest. */
  date: string;
  /** Null where two products met. */
  product_id: string | null;
  days_between: number | null;
  interval_days: number | null;
  /** True where no label says the days. */
  assumed: boolean;
  n_year_kg_m2: number | null;
  ceiling_kg_m2: number | null;
}

export interface ClashParts {
  store: Store;
  engine: Engine;
  /** The local day; a signal's value where it should be followed. */
  day: () => string;
  memberId: () => string | undefined;
}

/** What it takes to open a clash again. */
export interface Settled {
  op: string;
  id: string;
}

/** A mow noted twice is asked about for two weeks; a day more for clocks that stand apart. */
const MOW_DAYS = 15;

function mayClash({ kind, at, struck, sick, zoneIds }: Entry, day: string): boolean {
  if (struck || sick.length || !zoneIds.length || isAhead({ at }, day)) return false;
  if (kind === "mow") return !(daysBetween(at, day) > MOW_DAYS);
  return kind === "walk" && !(Number(at.slice(0, 4)) < Number(day.slice(0, 4)) - 1);
}

/** An entry as `record.clashes` takes it; one that does not yet say whose it is was made on this phone. */
function clashEntry({ id, kind, at, by, zoneIds, body }: Entry, me: string | undefined): object {
  const { product_id, sort, zones } = body;
  return {
    id,
    kind,
    occurred_at: at,
    zone_ids: zoneIds,
    ...given({ by: by ?? me, product_id, sort, zones }),
  };
}

function ceilingOf({ id, groups }: Row): object[] {
  const most = mostAYear(ownFields("zone", "grass", groups["grass"]?.value).fields["grass"]);
  return most ? [{ zone_id: id, n_year_kg_m2: most.n_kg_m2 }] : [];
}

export function createClashes({ store, engine, day, memberId }: ClashParts) {
  const entries = computed(() => store.rows("entry").value.map(entryOf));
  const loaded = ["entry", "product", "zone", "settlement"].map((t) => store.loaded(t));
  const said = ask<{ clashes: Clash[] }>(engine, "record.clashes", () => {
    // Half a book would show a clash that the other half has settled.
    if (!loaded.every((kind) => kind.value)) return null;
    const may = entries.value.filter((entry) => mayClash(entry, day()));
    return {
      entries: may.map((entry) => clashEntry(entry, memberId())),
      today: day(),
      products: store
        .rows("product")
        .value.map(productOf)
        .map(({ id, interval_days }) => ({ id, ...given({ interval_days }) })),
      ceilings: store.rows("zone").value.flatMap(ceilingOf),
    };
  });
  const settled = computed(
    () => new Set(store.rows("settlement").value.map((row) => row.groups["settled"]?.value?.clash)),
  );

  async function settle({ key, kind, entry_ids }: Clash, note = ""): Promise<Settled> {
    const id = store.newId();
    const value = { clash: key, kind, entry_ids, ...given({ note: note.trim() }) };
    const { op } = await store.save([{ t: "settlement", id, set: { settled: value } }]);
    return { op, id };
  }

  /** Takes the settling back out of the outbox; when it has already gone, opens the clash again for everybody. */
  async function reopen({ op, id }: Settled): Promise<void> {
    if (await store.withdraw(op)) return;
    await store.save([{ t: "settlement", id, set: { deleted: { deleted: true } } }]);
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
    entriesOf: ({ entry_ids }: Clash): Entry[] =>
      entry_ids.flatMap((id) => entries.value.find((entry) => entry.id === id) ?? []),
    settle,
    reopen,
  };
}

export type ClashesModel = ReturnType<typeof createClashes>;
