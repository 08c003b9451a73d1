/** Records with fields that cannot be used: left out of what is worked out, and named, so that one never hides a page. */
import { computed, type ReadonlySignal } from "@preact/signals";
import type { Kind, Row, Store } from "../store/types";
import { entryOf } from "./entries";
import { fieldsOf, ownFields } from "./kinds";

export interface Sick {
  t: Kind;
  id: string;
  /** Its name, or the kind of entry. */
  name: string;
  /** What cannot be used, in words. */
  fields: readonly string[];
}

const LOOKED_AT = ["zone", "product", "spreader"] as const;

function says(t: string, group: string, name: string): string {
  try {
    return fieldsOf(t, group)[name]?.says ?? name.replaceAll("_", " ");
  } catch {
    return name.replaceAll("_", " ");
  }
}

function ofRow(row: Row): Sick[] {
  const fields = Object.entries(row.groups).flatMap(([group, state]) =>
    ownFields(row.t, group, state?.value).sick.map((name) => says(row.t, group, name)),
  );
  const name = String(row.groups["name"]?.value?.name ?? "");
  return fields.length ? [{ t: row.t, id: row.id, name, fields }] : [];
}

function ofEntry(row: Row): Sick[] {
  const { kind, sick, struck } = entryOf(row);
  if (!sick.length || struck) return [];
  return [{ t: row.t, id: row.id, name: kind, fields: sick.map((name) => says("entry", kind, name)) }];
}

export function sickRecords(store: Pick<Store, "rows">): ReadonlySignal<Sick[]> {
  return computed(() => [
    ...LOOKED_AT.flatMap((t) => store.rows(t).value.flatMap(ofRow)),
    ...store.rows("entry").value.flatMap(ofEntry),
  ]);
}
