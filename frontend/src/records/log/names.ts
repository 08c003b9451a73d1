/** The names that records go by, for everybody who says something of them. */
import { computed } from "@preact/signals";
import type { Row, Store } from "../../platform/store/types";

/** Undefined for a record this phone does not hold (references are soft). */
export type NameOf = (id: string | undefined) => string | undefined;

/** The kinds of record that are named in what is said. */
export const NAMED = ["zone", "product", "spreader", "mower", "member"];

export function nameIn(row: Row): string | undefined {
  const name = row.groups["name"]?.value?.name;
  return name ? String(name) : undefined;
}

export function sayingNames(nameOf: NameOf) {
  const named = (id: string | undefined, otherwise: string): string => nameOf(id) ?? otherwise;
  const sayZones = (ids: readonly string[]): string =>
    ids.map((id) => named(id, "a zone not on this phone")).join(", ");
  return { nameOf, named, sayZones };
}

/** Who holds this phone: known by the sign-in before the book has brought their record. */
export type Holder = () => { id: string; name: string } | undefined;

export function createNames({ rows }: Pick<Store, "rows">, holder: Holder = () => undefined) {
  const names = computed(
    () => new Map(NAMED.flatMap((t) => rows(t).value.map((row) => [row.id, nameIn(row)] as const))),
  );
  const ofHolder = (id: string) => [holder()].find((one) => one?.id === id)?.name;
  return sayingNames((id) => (id ? (names.value.get(id) ?? ofHolder(id)) : undefined));
}
