/** The log: what was done, day by day; amended and struck out without anything being wiped. */
import { computed, signal } from "@preact/signals";
import { dayOfMoment } from "../../../format/moment";
import { type Entry, entryOf, instantOf } from "../../../records/entries";
import { NAMED } from "../../../records/log/names";
import { entriesIn, entryIn } from "../../../records/log/read";
import { kindOf } from "../../../records/log/registry";
import { createWriting, type WritingParts } from "../../../records/log/writing";
import { timeOf, type Was } from "../../../records/overlay";

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

function fits(entry: Entry, wanted: Filters): boolean {
  return (
    (!wanted.kind || entry.kind === wanted.kind) &&
    (!wanted.zone || entry.zoneIds.includes(wanted.zone)) &&
    (!wanted.product || entry.body["product_id"] === wanted.product) &&
    (!wanted.person || entry.by === wanted.person) &&
    (wanted.struck || !entry.struck)
  );
}

/** A part stands on the page of its whole; in the list only when its kind is asked for or its whole is not there. */
function within(entry: Entry, wanted: Filters, ids: ReadonlySet<string>): boolean {
  const whole = kindOf(entry.kind)?.partOf?.(entry.body);
  return whole !== undefined && wanted.kind !== entry.kind && ids.has(whole);
}

/** Whether its whole is on this phone is not known before all of the log is. */
const isPart = ({ kind, body }: Entry): boolean => kindOf(kind)?.partOf?.(body) !== undefined;

/** Of the newest so many days may lack entries: the log goes by the calendar of each place, those by the moment. */
const LAST_DAYS = 2;

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

/** The parts of an entry, in the order they were made. */
const asWalked = (a: Entry, b: Entry): number =>
  Number(a.body["number"] ?? 0) - Number(b.body["number"] ?? 0) || a.id.localeCompare(b.id);

const LATEST = 3;

export function createLog(parts: WritingParts) {
  const { store } = parts;
  const { amend } = createWriting(parts);
  const entries = entriesIn(store);
  const filters = signal<Filters>(NO_FILTERS);
  const wholes = computed(
    () => new Set(entries.value.filter(({ kind }) => kindOf(kind)?.parts).map(({ id }) => id)),
  );

  const loaded = store.loaded("entry");
  const named = NAMED.map((t) => store.loaded(t));
  /** Until all of it is read: what it begins with, by whole days, once it can be said of whom and what it is. */
  const newest = computed(() => {
    const rows = loaded.value ? undefined : store.newest.value;
    return rows && (named.every((one) => one.value) ? rows.map(entryOf) : []);
  });
  const first = computed(() => {
    const wanted = (entry: Entry) => fits(entry, filters.value) && !isPart(entry);
    return newest.value && byDay(newest.value.filter(wanted)).slice(0, -LAST_DAYS);
  });

  return {
    entries,
    loaded,
    filters,
    days: computed(() => {
      if (first.value) return first.value;
      const ids = wholes.value;
      return byDay(
        entries.value.filter((entry) => fits(entry, filters.value) && !within(entry, filters.value, ids)),
      );
    }),
    partsOf: (id: string) =>
      computed(() =>
        entries.value.filter(({ kind, body }) => kindOf(kind)?.partOf?.(body) === id).sort(asWalked),
      ),
    /** Saved on this phone, on their way to the others. */
    waiting: computed(() => entries.value.filter((entry) => entry.pending && !entry.struck)),
    latest: computed(() => (newest.value ?? entries.value).filter((entry) => !entry.struck).slice(0, LATEST)),
    filtered: computed(() =>
      Object.entries(filters.value).some(([key, value]) => value !== NO_FILTERS[key as keyof Filters]),
    ),
    zones: store.rows("zone"),
    products: store.rows("product"),
    members: store.rows("member"),
    kindsSeen: computed(() => [...new Set(entries.value.map((entry) => entry.kind))].sort()),
    /** The entry as it stands, read where it is drawn; undefined when this phone does not hold it. */
    entryNow: (id: string | undefined) => entryIn(store, id),
    entry: (id: string) => computed(() => entryIn(store, id)),
    setNote: (entry: Entry, note: string) => amend(entry, "note", "note", { note }),
    setWhen: (entry: Entry, occurred_at: string) => amend(entry, "when", "occurred_at", { occurred_at }),
    strike: (entry: Entry, why: string) => amend(entry, "void", "void", { void: true, why }),
    putBack: (entry: Entry) => amend(entry, "void", "void", { void: false, why: "" }),
  };
}

export type LogModel = ReturnType<typeof createLog>;
