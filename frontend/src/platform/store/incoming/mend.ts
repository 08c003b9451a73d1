/** Finding and replacing what does not agree with the server's book (P4, F52). */
import {
  addSums,
  bucketOf,
  digestText,
  NO_SUMS,
  recordSums,
  type Sums,
  subtractSums,
  sumAll,
} from "../core/digest";
import { type ChangeRecord, keyOf, type State } from "../core/records";
import type { BookDb, LiveRow } from "../db";
import { inParts } from "../parts";
import { eraOf, putLive, readState } from "../state";
import { rebuilt } from "../writing";
import { storeRecords } from "./pages";

/** The digest of what is really in the table, not of what was thought to be put there (F52). */
export async function trueDigest(db: BookDb): Promise<string> {
  return db.transaction("rw", db.base, db.meta, async () => {
    const state = await readState(db);
    let digest = NO_SUMS;
    let count = 0;
    await inParts(db.base, ["", "\uffff"], (rows) => {
      const own = rows.filter((row) => eraOf(row) === eraOf(state));
      digest = addSums(digest, sumAll(own.map((row) => row.record)));
      count += own.length;
    });
    await db.meta.put({ ...state, digest, count });
    return digestText(digest);
  });
}

/** Whether the table holds as many records as were put there: a row that is gone shows without reading all of them. */
export async function countAgrees(db: BookDb): Promise<boolean> {
  return db.transaction("r", db.base, db.meta, async () => {
    const state = await readState(db);
    return state.sweep === true || state.count === (await db.base.count());
  });
}

/** A record as far as finding differences needs it. */
export interface Placed {
  key: string;
  bucket: string;
  seq: number;
  sums: Sums;
}

/** All records of this phone with their buckets. Reads everything: only for a book that is known to differ. */
export async function placed(db: BookDb): Promise<Placed[]> {
  const rows = await db.base.toArray();
  return rows.map(({ key, record: { t, id, seq } }) => ({
    key,
    bucket: bucketOf(t, id),
    seq,
    sums: recordSums(t, id, seq),
  }));
}

/**
 * Makes one bucket what the server says it is at its number `head`: `keys` are this phone's records in it. What this
 * phone has got meanwhile beyond that number stays.
 */
export async function takeBucket(
  db: BookDb,
  keys: readonly string[],
  records: readonly ChangeRecord[],
  head: number,
  asked: State,
): Promise<LiveRow[]> {
  return db.transaction("rw", db.base, db.live, db.outbox, db.parked, db.meta, async () => {
    const state = await readState(db);
    if (eraOf(state) !== eraOf(asked)) return [];
    const there = new Set(records.map(({ t, id }) => keyOf(t, id)));
    const without = await takeAway(
      db,
      state,
      keys.filter((key) => !there.has(key)),
      head,
    );
    const stored = await storeRecords(db, without.state, records, head);
    const rows = await rebuilt(db, [...stored.records.keys(), ...without.keys], stored.records);
    const put = await putLive(db, stored.state, rows);
    await db.meta.put(put.state);
    return put.written;
  });
}

/** Takes away records the server's book does not hold, unless they are newer than its answer. */
async function takeAway(db: BookDb, state: State, keys: readonly string[], head: number) {
  const rows = (await db.base.bulkGet([...keys])).filter((row) => row !== undefined);
  const gone = rows.filter((row) => row.record.seq <= head);
  let { digest, count = 0 } = state;
  for (const { record } of gone) digest = subtractSums(digest, recordSums(record.t, record.id, record.seq));
  count -= gone.length;
  await db.base.bulkDelete(gone.map((row) => row.key));
  return { state: { ...state, digest, count }, keys: gone.map((row) => row.key) };
}
