/** Records with fields that cannot be used: left out of what is worked out, and named, so that one never hides a page. */
import { computed, type ReadonlySignal } from "@preact/signals";
import { recordRemoval } from "../forms/recorded";
import type { Kind, Row, Store } from "../platform/store/types";
import type { Entry } from "./entries";
import { fieldsOf } from "./kinds";
import { entriesIn } from "./log/read";
import { type Unusable, unusable } from "./reading";

export interface Sick {
  t: Kind;
  id: string;
  /** Its name, or the kind of entry. */
  name: string;
  /** What cannot be used, in words. */
  fields: readonly string[];
  /** Those of them that are not there at all. */
  missing: readonly string[];
}

const LOOKED_AT = [
  "household",
  "member",
  "zone",
  "product",
  "spreader",
  "mower",
  "plan",
  "step",
  "claim",
  "settlement",
  "photo",
];

function saysField(t: string, { group, name }: Unusable): string {
  try {
    return fieldsOf(t, group)[name]?.label ?? name.replaceAll("_", " ");
  } catch {
    return name.replaceAll("_", " ");
  }
}

const said = (row: Row, of: readonly Unusable[]): string[] => [
  ...new Set(of.map((one) => saysField(row.t, one))),
];

function saysAll(row: Row): Pick<Sick, "fields" | "missing"> {
  const all = unusable(row);
  return {
    fields: said(row, all),
    missing: said(
      row,
      all.filter(({ value }) => (value ?? null) === null),
    ),
  };
}

function ofRow(row: Row): Sick[] {
  const found = saysAll(row);
  return found.fields.length
    ? [{ t: row.t, id: row.id, name: String(row.groups["name"]?.value?.name ?? ""), ...found }]
    : [];
}

const ofEntry = ({ kind, row }: Entry): Sick => ({ t: row.t, id: row.id, name: kind, ...saysAll(row) });

export function sickRecords(store: Pick<Store, "rows">): ReadonlySignal<Sick[]> {
  const log = entriesIn(store);
  return computed(() => [
    ...LOOKED_AT.flatMap((t) => store.rows(t).value.flatMap(ofRow)),
    ...log.value.filter(({ sick, struck }) => sick.length && !struck).map(ofEntry),
  ]);
}

/** What of it has no page of its own is removed where it is named; nothing is lost, and everybody's phone can have it back. */
export const REMOVABLE: readonly Kind[] = ["claim", "settlement", "photo"];

export function createLeftOut({ store }: { store: Store }) {
  return {
    records: sickRecords(store),
    loaded: store.loaded("zone"),
    remove: ({ t, id }: Sick) => recordRemoval(store, t, id),
  };
}

export type LeftOutModel = ReturnType<typeof createLeftOut>;
