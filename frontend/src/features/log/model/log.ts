/** The log: what was done, day by day; amended and struck out without anything being wiped. */
import { computed, signal } from "@preact/signals";
import { dayOfMoment } from "../../../format/moment";
import type { Taken } from "../../../platform/photos/take";
import type { Row, Store } from "../../../platform/store/types";
import { type Entry, entryOf, given, instantOf } from "../../../records/entries";
import { amended, type Laid, timeOf, type Was } from "../../../records/overlay";
import { photoItems } from "../../photos/model/photos";

export interface Filters {
  kind: string;
  zone: string;
  product: string;
  person: string;
  /** Struck-out entries stay in the book; this shows them in the list too. */
  struck: boolean;
}

export const NO_FILTERS: Filters = { kind: "", zone: "", product: "", person: "", struck: true };

export interface Day {
  day: string;
  entries: Entry[];
}

/** One line of an entry's history: what was said, by whom, when. */
export interface Said {
  what: string;
  value: string;
  by: string | undefined;
  at: string | undefined;
}

export interface LogParts {
  store: Store;
  now: () => string;
  memberId: () => string | undefined;
}

function fits(entry: Entry, wanted: Filters): boolean {
  return (
    (!wanted.kind || entry.kind === wanted.kind) &&
    (!wanted.zone || entry.zoneIds.includes(wanted.zone)) &&
    (!wanted.product || entry.body["product_id"] === wanted.product) &&
    (!wanted.person || entry.by === wanted.person) &&
    (wanted.struck || !entry.struck)
  );
}

/** A pass stands on the page of its job; in the list only when passes are asked for or its job is not finished. */
function within(entry: Entry, wanted: Filters, jobs: ReadonlySet<string>): boolean {
  return entry.kind === "pass" && wanted.kind !== "pass" && jobs.has(entry.body["spread_id"]);
}

/** Newest day first, newest entry first; equal moments in the order of their ids, so two phones show one order. */
export function byDay(entries: readonly Entry[]): Day[] {
  const sorted = [...entries].sort(
    (a, b) => inOrder(b.at.slice(0, 10), a.at.slice(0, 10)) || instant(b) - instant(a) || inOrder(b.id, a.id),
  );
  const days: Day[] = [];
  for (const entry of sorted) {
    const day = dayOfMoment(entry.at);
    const last = days.at(-1);
    if (last?.day === day) last.entries.push(entry);
    else days.push({ day, entries: [entry] });
  }
  return days;
}

/** Plain signs need no rules of a language, which take ten times as long. */
const inOrder = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);

function instant(entry: Entry): number {
  const ms = instantOf(entry);
  return Number.isNaN(ms) ? 0 : ms;
}

function nameOf(row: Row | undefined): string | undefined {
  const name = row?.groups["name"]?.value?.name;
  return name ? String(name) : undefined;
}

const OVERLAYS = [
  { group: "when", field: "occurred_at", what: "Moved to" },
  { group: "note", field: "note", what: "Note" },
] as const;

/** Every wording an overlay has had, oldest first. */
function wordings(entry: Entry, { group, field, what }: (typeof OVERLAYS)[number]): Said[] {
  const state = entry.row.groups[group];
  if (!state?.value) return [];
  const earlier = ((state.value.was ?? []) as Was[]).map((was) => ({
    what: `${what} (earlier)`,
    value: String(was.value ?? ""),
    by: was.by ?? undefined,
    at: was.at ?? undefined,
  }));
  return [
    ...earlier,
    {
      what,
      value: String(state.value[field] ?? ""),
      by: state.value.by ?? undefined,
      at: timeOf(entry.row, group),
    },
  ];
}

const SWITCHES = [
  { group: "learning", field: "bad", on: "Ignored", off: "Used again" },
  { group: "void", field: "void", on: "Crossed out", off: "Restored" },
] as const;

/** Every turn of a switch laid over an entry, oldest first, each with its reason. */
function turns(entry: Entry, { group, field, on, off }: (typeof SWITCHES)[number]): Said[] {
  const state = entry.row.groups[group];
  if (!state?.value) return [];
  const earlier = ((state.value.was ?? []) as Was[]).map((was) => ({
    what: `${was.value ? on : off} (earlier)`,
    value: was.why ?? "",
    by: was.by ?? undefined,
    at: was.at ?? undefined,
  }));
  const now = {
    what: state.value[field] ? on : off,
    value: String(state.value.why ?? ""),
    by: state.value.by ?? undefined,
    at: timeOf(entry.row, group),
  };
  return [...earlier, now];
}

/** What has been said about an entry, oldest first: written, moved, noted, left out of learning, struck out. */
export function historyOf(entry: Entry): Said[] {
  const written = { what: "Logged for", value: entry.firstAt, by: entry.by, at: entry.row.received_at };
  return [
    written,
    ...OVERLAYS.flatMap((overlay) => wordings(entry, overlay)),
    ...SWITCHES.flatMap((one) => turns(entry, one)),
  ];
}

export function createLog({ store, now, memberId }: LogParts) {
  const entries = computed(() => store.rows("entry").value.map(entryOf));
  const filters = signal<Filters>(NO_FILTERS);
  const spreadIds = computed(
    () => new Set(entries.value.filter(({ kind }) => kind === "spread").map(({ id }) => id)),
  );
  const names = computed(() => {
    const kinds = ["zone", "product", "spreader", "member"];
    return new Map(kinds.flatMap((t) => store.rows(t).value.map((row) => [row.id, nameOf(row)] as const)));
  });

  /** Writes an overlay anew and keeps inside it what stood there before. */
  async function amend({ row }: Entry, group: Laid["group"], field: string, value: object): Promise<void> {
    await store.save([amended(row, { group, field, value }, { by: memberId(), at: now() })]);
  }

  function add(
    kind: string,
    facts: Record<string, unknown>,
    zoneIds: readonly string[],
    at?: string,
    taken: readonly Taken[] = [],
  ) {
    const id = store.newId();
    const body = {
      ...given({ kind, occurred_at: at ?? now(), by: memberId(), ...facts }),
      zone_ids: [...zoneIds],
    };
    const photos = photoItems(store.newId, "entry", id, taken);
    return store.save([{ t: "entry", id, body }, ...photos], taken).then(({ op }) => ({ op, id }));
  }

  return {
    entries,
    loaded: store.loaded("entry"),
    filters,
    days: computed(() => {
      const jobs = spreadIds.value;
      return byDay(
        entries.value.filter((entry) => fits(entry, filters.value) && !within(entry, filters.value, jobs)),
      );
    }),
    /** The passes of a job, in the order they were walked. */
    passesOf: (spreading: string) =>
      computed(() =>
        entries.value
          .filter((entry) => entry.kind === "pass" && entry.body["spread_id"] === spreading)
          .sort(
            (a, b) =>
              Number(a.body["number"] ?? 0) - Number(b.body["number"] ?? 0) || a.id.localeCompare(b.id),
          ),
      ),
    filtered: computed(() =>
      Object.entries(filters.value).some(([key, value]) => value !== NO_FILTERS[key as keyof Filters]),
    ),
    zones: store.rows("zone"),
    products: store.rows("product"),
    members: store.rows("member"),
    kindsSeen: computed(() => [...new Set(entries.value.map((entry) => entry.kind))].sort()),
    /** The name a record goes by; undefined for one this phone does not hold (references are soft). */
    nameOf: (id: string | undefined) => (id ? names.value.get(id) : undefined),
    /** The entry as it stands, read where it is drawn; undefined when this phone does not hold it. */
    entryNow: (id: string | undefined) => entries.value.find((entry) => entry.id === id),
    entry: (id: string) => computed(() => entries.value.find((entry) => entry.id === id)),
    setNote: (entry: Entry, note: string) => amend(entry, "note", "note", { note }),
    setWhen: (entry: Entry, occurred_at: string) => amend(entry, "when", "occurred_at", { occurred_at }),
    strike: (entry: Entry, why: string) => amend(entry, "void", "void", { void: true, why }),
    /** Leaves a pass out of learning, or takes it in again; its own mark stays in the body. */
    setLearning: (entry: Entry, bad: boolean, why: string) => amend(entry, "learning", "bad", { bad, why }),
    putBack: (entry: Entry) => amend(entry, "void", "void", { void: false, why: "" }),
    observe: (text: string, zoneIds: readonly string[], at?: string, taken?: readonly Taken[]) =>
      add("observation", { text }, zoneIds, at, taken),
    countStock: (product_id: string, left_kg: number, left_typed: object, at?: string) =>
      add("stock_count", { product_id, left_kg, left_typed }, [], at),
  };
}

export type LogModel = ReturnType<typeof createLog>;
