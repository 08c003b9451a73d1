/** The form of a record in groups, such as a product: it saves the groups that were changed and nothing else. */
import type { System } from "../format";
import type { Row, Store } from "../platform/store/types";
import type { UnitsSet } from "../records/kinds";
import { needsMending } from "../records/reading";
import { createForm, type Draft, type Errors, type Form, type Read, type Saved } from "./form";
import { recordGroups } from "./recorded";

export type Groups = Record<string, Record<string, unknown>>;

export type Check = (t: string, group: string, value: object, system: System, set?: UnitsSet) => Errors;

export interface RecordParts {
  store: Store;
  system: () => System;
  /** Resolves when `system` is the person's own; at once where none is handed in. */
  ready?: (() => Promise<void>) | undefined;
  check: Check;
}

/** How one sort of record goes between its form and its groups. */
export interface RecordShape<F> {
  t: string;
  blank: (system: System) => F;
  formOf: (row: Row, system: System) => F;
  /** `set` takes the unit each field is set to, in which its limits are said. */
  groupsOf: (form: F, errors: Errors, set?: Record<string, string>) => Groups;
  /** Groups checked even while empty, since a record cannot do without them. */
  needed: readonly string[];
}

export interface SavedRecord extends Saved {
  id: string;
}

export type RecordForm<F extends object> = Form<F, SavedRecord, Row | undefined, Groups>;

/** A group as it will stand: the form's fields over whatever else it holds, cleared fields gone. */
export function over(standing: object | undefined, before: object, after: object): object {
  const rest = Object.entries(standing ?? {}).filter(([name]) => !(name in before));
  return { ...Object.fromEntries(rest), ...after };
}

/** The groups that this person changed, each laid over what the record holds now. */
export function changedGroups(before: Groups, after: Groups, row: Row | undefined): Record<string, object> {
  const set: Record<string, object> = {};
  for (const [group, value] of Object.entries(after)) {
    const was = row ? (before[group] ?? {}) : {};
    if (needsMending(row, group) || JSON.stringify(value) !== JSON.stringify(was))
      set[group] = over(row?.groups[group]?.value, was, value);
  }
  return set;
}

/** Writes what changed of a record, or a new one; nothing where nothing did. */
export async function saveGroups(
  store: Store,
  t: string,
  row: Row | undefined,
  set: Record<string, object>,
): Promise<SavedRecord> {
  const id = row?.id ?? store.newId();
  return Object.keys(set).length ? recordGroups(store, t, { id, row }, set) : { id };
}

export function createRecordForm<F extends object>(
  { store, system, ready, check }: RecordParts,
  { t, blank, formOf, groupsOf, needed }: RecordShape<F>,
  id: string | null,
): RecordForm<F> {
  function read(form: F): Read<Groups> {
    const errors: Errors = {};
    const set: Record<string, string> = {};
    const groups = groupsOf(form, errors, set);
    const unreadable = { ...errors };
    for (const [group, value] of Object.entries(groups)) {
      if (needed.includes(group) || Object.keys(value).length)
        for (const [field, message] of Object.entries(check(t, group, value, system(), set)))
          errors[field] ??= message;
    }
    return { value: groups, errors, unreadable };
  }
  return createForm<F, Groups, SavedRecord, Row | undefined>(
    { store, ready },
    {
      key: `${t}-form:${id ?? "new"}`,
      fresh: (row) => (row ? formOf(row, system()) : blank(system())),
      read,
      write: (groups, { opened }: Draft<F>, row) =>
        saveGroups(store, t, row, changedGroups(groupsOf(opened, {}), groups, row)),
    },
  );
}
