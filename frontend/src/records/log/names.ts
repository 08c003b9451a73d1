/** The names that records go by, for everybody who says something of them. */
import { computed } from "@preact/signals";
import type { Row, Store } from "../../platform/store/types";

/** Undefined for a record this phone does not hold (references are soft). */
export type NameOf = (id: string | undefined) => string | undefined;

const NAMED = ["zone", "product", "spreader", "member"];

function nameIn(row: Row): string | undefined {
  const name = row.groups["name"]?.value?.name;
  return name ? String(name) : undefined;
}

export function sayingNames(nameOf: NameOf) {
  const named = (id: string | undefined, otherwise: string): string => nameOf(id) ?? otherwise;
  const sayZones = (ids: readonly string[]): string =>
    ids.map((id) => named(id, "a zone not on this phone")).join(", ");
  return { nameOf, named, sayZones };
}

export function createNames({ rows }: Pick<Store, "rows">) {
  const names = computed(
    () => new Map(NAMED.flatMap((t) => rows(t).value.map((row) => [row.id, nameIn(row)] as const))),
  );
  return sayingNames((id) => (id ? names.value.get(id) : undefined));
}
