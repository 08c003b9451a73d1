/** Rows of a long table a few at a time, each few in a task of their own, so that a thumb never waits for years of them. */
import type { Table } from "dexie";

/** On a slow phone this many are read and looked at in a few hundredths of a second. */
export const AT_ONCE = 100;

/** Inside a transaction with the table, or in one of its own: hands on every row whose key lies between, in its order. */
export async function inParts<R extends { key: string }>(
  table: Table<R, string>,
  [after, before]: readonly [after: string, before: string],
  take: (rows: R[]) => void,
): Promise<void> {
  let from = after;
  for (;;) {
    const rows = await table.where("key").between(from, before, false, false).limit(AT_ONCE).toArray();
    take(rows);
    const last = rows.at(-1);
    if (!last || rows.length < AT_ONCE) return;
    from = last.key;
  }
}
