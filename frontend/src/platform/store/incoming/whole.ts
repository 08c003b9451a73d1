/**
 * Fetching a whole book: page by page, each with its progress in one transaction, so that a cut at 60 % goes on from
 * there (F51). The cursor is not touched until the last page is stored; waiting ops and rows stay as they are (P9).
 */
import type { ChangeRecord, State } from "../core/records";
import type { BookDb, BootState, LiveRow } from "../db";
import { eraOf, putLive, readBoot, readState } from "../state";
import { rebuilt } from "../writing";
import { settleEra, storeRecords } from "./pages";
import { anew, refilled } from "./refill";

export interface WholePage {
  epoch: string;
  head: number;
  records: ChangeRecord[];
  /** Token of the next page; null after the last. */
  after: string | null;
}

/** Begins at the first page, or begins again where the server does not know the token. */
export async function startWhole(db: BookDb): Promise<void> {
  await db.transaction("rw", db.meta, async () => {
    const { epoch } = await readState(db);
    if (epoch) await db.meta.put({ key: "boot", after: null, head: 0, epoch } satisfies BootState);
  });
}

/** No longer by whole pages: the rounds fetch the rest. */
export async function stopWhole(db: BookDb): Promise<void> {
  await db.meta.delete("boot");
}

/** Stores a page. `asked` and `boot` are what it was asked with; where another tab was quicker nothing is changed. */
export async function takeWholePage(
  db: BookDb,
  page: WholePage,
  asked: State,
  boot: BootState,
): Promise<LiveRow[]> {
  const tables = [db.base, db.live, db.outbox, db.acked, db.parked, db.meta];
  return db.transaction("rw", tables, async () => {
    const state = await readState(db);
    const now = await readBoot(db);
    if (eraOf(state) !== eraOf(asked) || now?.after !== boot.after || now.head !== boot.head) return [];
    if (page.epoch !== now.epoch) {
      await db.meta.put(await refilled(db, state, page.epoch));
      return [];
    }
    const stored = await storeRecords(db, state, page.records);
    const head = boot.after === null ? page.head : boot.head;
    await db.meta.put({ ...now, after: page.after, head });
    const done = { ...stored.state, cursor: Math.max(state.cursor, head) };
    const settled = page.after === null ? await settleEra(db, done) : { state: stored.state, swept: [] };
    const keys = [...stored.changed, ...settled.swept];
    const live = await putLive(db, settled.state, await rebuilt(db, keys, stored.records));
    await db.meta.put(live.state);
    return live.written;
  });
}

/** Everything is to be fetched again. The outbox is not touched; rows stay readable meanwhile (P9). */
export async function startRepull(db: BookDb): Promise<void> {
  await db.transaction("rw", db.meta, async () => {
    await db.meta.put(await anew(db, await readState(db)));
  });
}
