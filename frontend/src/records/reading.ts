/**
 * How the book is read: every model is handed a store whose records were checked. A field is there only from its own
 * group (or kind of entry) and inside its limits; one that cannot be used is left out and kept in a list, so that one
 * sick record never hides a page, and is named on it (records/sick.ts). Nothing on the disk changes.
 */
import { computed, type ReadonlySignal } from "@preact/signals";
import type { GroupState, Row, Store } from "../platform/store/types";
import { fieldsOf, groupsLacking, missingFields, ownFields } from "./kinds";

/** A field that cannot be used, with what stands there. */
export interface Unusable {
  /** Of a settings record or laid over an entry; the kind of entry for a field of its body. */
  group: string;
  name: string;
  value: unknown;
}

interface Checked {
  row: Row;
  sick: readonly Unusable[];
}

const SOUND: readonly Unusable[] = [];
/** A row is replaced when it changes, so what was found of it holds as long as it does. */
const found = new WeakMap<Row, Checked>();

function checked(row: Row): Checked {
  const known = found.get(row);
  if (known) return known;
  const now = look(row);
  found.set(row, now);
  // The checked row, handed in once more, is itself.
  found.set(now.row, now);
  return now;
}

function look(row: Row): Checked {
  const sick: Unusable[] = [];
  let same = true;
  function own(group: string, value: unknown): unknown {
    const { fields, sick: names } = ownFields(row.t, group, value);
    const given = (value ?? {}) as Record<string, unknown>;
    for (const name of names) sick.push({ group, name, value: given[name] });
    for (const name of missingFields(row.t, group, value)) sick.push({ group, name, value: undefined });
    if (sameFields(value, fields)) return value;
    same = false;
    return fields;
  }
  for (const group of groupsLacking(row.t, (name) => isHeld(row.groups[name]?.value)))
    for (const name of missingFields(row.t, group, undefined)) sick.push({ group, name, value: undefined });
  const groups: Record<string, GroupState> = {};
  for (const [name, state] of Object.entries(row.groups)) {
    if (!isHeld(state?.value)) groups[name] = state;
    else groups[name] = { ...state, value: own(name, state.value) };
  }
  const body = row.t === "entry" && isHeld(row.body) ? own(kindOf(row.body), row.body) : row.body;
  return { row: same ? row : { ...row, groups, body }, sick: sick.length ? sick : SOUND };
}

const isHeld = (value: unknown): boolean => value !== undefined && value !== null;

const kindOf = (body: unknown): string => {
  const kind = (body as { kind?: unknown } | undefined)?.kind;
  return typeof kind === "string" ? kind : "";
};

function sameFields(value: unknown, fields: Record<string, unknown>): boolean {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return false;
  return Object.keys(value).length === Object.keys(fields).length;
}

/** The record as it may be read. */
export const soundRow = (row: Row): Row => checked(row).row;

/** What of a record cannot be used, checked or not. */
export const unusable = (row: Row): readonly Unusable[] => checked(row).sick;

/**
 * A group as a form is loaded with it: sick numbers and texts too, where its fields can show them, so that what is wrong
 * stands in its box to be put right.
 */
export function groupToMend(row: Row, group: string): Record<string, any> {
  const shown = unusable(row).filter((one) => one.group === group && canBeShown(row.t, one));
  const fields = soundRow(row).groups[group]?.value ?? {};
  return shown.length
    ? { ...fields, ...Object.fromEntries(shown.map(({ name, value }) => [name, value])) }
    : fields;
}

const NUMBERS: readonly string[] = ["number", "integer"];
const TEXTS: readonly string[] = ["text", "choice"];

function canBeShown(t: string, { group, name, value }: Unusable): boolean {
  const { type = "json" } = fieldsOf(t, group)[name] ?? {};
  if (NUMBERS.includes(type)) return Number.isFinite(value);
  return TEXTS.includes(type) && typeof value === "string";
}

/** Whether a save of this record should write the group anew, so that nothing sick stays in it. */
export const needsMending = (row: Row | undefined, group: string): boolean =>
  row !== undefined && unusable(row).some((one) => one.group === group);

function soundRows(rows: Row[]): Row[] {
  const sound = rows.map(soundRow);
  return sound.every((row, at) => row === rows[at]) ? rows : sound;
}

/** The store as all models read it. */
export function reading(store: Store): Store {
  const lists = new Map<string, ReadonlySignal<Row[]>>();
  const one = new Map<string, ReadonlySignal<Row | undefined>>();
  function rows(t: string): ReadonlySignal<Row[]> {
    const list = lists.get(t) ?? computed(() => soundRows(store.rows(t).value));
    lists.set(t, list);
    return list;
  }
  function row(t: string, id: string): ReadonlySignal<Row | undefined> {
    const key = `${t}:${id}`;
    const live =
      one.get(key) ??
      computed(() => {
        const now = store.row(t, id).value;
        return now && soundRow(now);
      });
    one.set(key, live);
    return live;
  }
  const newest = computed(() => store.newest.value && soundRows(store.newest.value));
  return { ...store, rows, row, newest };
}
