/** The groups of a record as the contract has them (kinds.gen.ts): what is added there is read here, by itself. */
import type { Row } from "../platform/store/types";
import type { Groups } from "./kinds.gen";

/** A group as it stands, its kind for its type; none of its fields where it was never written. */
export function groupOf<K extends keyof Groups, G extends keyof Groups[K] & string>(
  _kind: K,
  row: Pick<Row, "groups"> | undefined,
  group: G,
): Partial<Groups[K][G]> {
  return row?.groups[group]?.value ?? {};
}
