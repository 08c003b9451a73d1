/**
 * What an answer does to the store, in one transaction: a page of changes, its cursor, the digest and the verdicts on
 * this phone's ops come to rest together or not at all (S15, F11).
 */
import { type ChangeRecord, isParked, keyOf, type Op, type OpResult, type State } from "../core/records";
import type { BookDb, LiveRow } from "../db";
import { parkedRow, remade, unjudgedIn } from "../lines";
import { eraOf, putLive, readState } from "../state";
import type { ParkedRow } from "../types";
import { rebuilt } from "../writing";
import { settleEra, storeRecords } from "./pages";
import { keepAcked, pruneAcked, refilled, type Times } from "./refill";

/** A parsed answer of the server to a push and pull. */
export interface SyncAnswer {
  server_time: string;
  epoch?: string | null;
  results: OpResult[];
  acked_dseq: number;
  changes: ChangeRecord[];
  cursor: number;
  head: number;
  has_more: boolean;
  digest?: string | null;
  need_from?: number | null;
  fork_detected?: boolean | null;
  /** The cursor is beyond the book: the server was restored. Pull again from 0, keep the outbox. */
  reset?: boolean | null;
}

/**
 * Stores an answer; waiting ops again on top. `asked` is the state the question was made from. An answer from before
 * the book was begun anew is forgotten whole: its verdicts are those of a server that has since lost them. When
 * another tab has only moved the cursor meanwhile, the page is old news and the verdicts are taken: an older copy of
 * a record must not come back over a newer one (F7, P3).
 */
export async function takeAnswer(
  db: BookDb,
  answer: SyncAnswer,
  asked: State,
  nowMs: number,
): Promise<LiveRow[]> {
  const tables = [db.base, db.live, db.outbox, db.acked, db.parked, db.meta];
  return db.transaction("rw", tables, async () => {
    const state = await readState(db);
    if (eraOf(state) !== eraOf(asked)) return [];
    const times = timesOf(answer, nowMs);
    const fresh = state.cursor === asked.cursor;
    const cursor = fresh ? answer.cursor : state.cursor;
    const forgot = hasForgotten(answer, asked, state);
    // What was judged stays on top until the whole book is here: a record that an op is in may since have been moved
    // to a number that only a later page reaches, and the person's own write would vanish until then (P3).
    // What a former member hands in is answered without a page: no epoch, and nothing is reached by it (S22).
    const whole = Boolean(answer.epoch) && !forgot && fresh && !answer.has_more;
    const reached = whole ? cursor : 0;
    const judged = await storeVerdicts(db, answer.results, reached, times);
    // A phone that slept past the 30 days still holds what the server may have lost meanwhile: sent again, not let go.
    if (!forgot) await pruneAcked(db, times);
    const stored = await storeRecords(db, state, fresh && !forgot ? answer.changes : []);
    const moved = forgot
      ? await refilled(db, stored.state, answer.epoch ?? undefined)
      : await movedOn(db, { ...stored.state, cursor }, answer, asked);
    const settled = whole ? await settleEra(db, moved) : { state: moved, swept: [] };
    const keys = [...judged, ...stored.changed, ...settled.swept];
    const live = await putLive(db, settled.state, await rebuilt(db, keys, stored.records));
    await db.meta.put(live.state);
    return live.written;
  });
}

function timesOf(answer: SyncAnswer, phone: number): Times {
  const server = Date.parse(answer.server_time);
  return { server: Number.isFinite(server) ? server : undefined, phone };
}

/**
 * Whether this server has lost what it had acknowledged: it says so (epoch), or its book or this phone's line ends
 * before where it had been. A server that opens the household no longer says no epoch, and is not asked about that.
 */
function hasForgotten(answer: SyncAnswer, asked: State, state: State): boolean {
  if (!answer.epoch) return false;
  if (answer.reset || (state.epoch !== undefined && answer.epoch !== state.epoch)) return true;
  return sameLine(asked, state) && answer.acked_dseq < asked.confirmed;
}

const sameLine = (asked: State, state: State): boolean =>
  asked.incarnation === state.incarnation && asked.device === state.device;

/** The counters after an answer. More acknowledged than ever numbered: this phone's last writes are lost to it (F3). */
async function movedOn(db: BookDb, state: State, answer: SyncAnswer, asked: State): Promise<State> {
  const told = answer.epoch ? { ...state, epoch: answer.epoch } : state;
  if (!sameLine(asked, state)) return told;
  if (answer.acked_dseq > state.dseq) return remade(db, told);
  return { ...told, confirmed: Math.max(state.confirmed, answer.acked_dseq) };
}

/** Inside the transaction: what is judged and passed by the cursor leaves the outbox. Returns the records it touched. */
async function storeVerdicts(
  db: BookDb,
  results: readonly OpResult[],
  cursor: number,
  times: Times,
): Promise<string[]> {
  const verdicts = new Map(results.map((result) => [result.op, result]));
  const parked: ParkedRow[] = [];
  const done: Op[] = [];
  const still: Op[] = [];
  for (const op of await concerned(db, [...verdicts.keys()], cursor)) {
    const result = verdicts.get(op.op);
    const aside = isParked(result);
    const at = new Date(times.phone).toISOString();
    if (aside) parked.push(parkedRow(op, "parked", result?.why, at));
    const seq = result ? (result.seq ?? cursor) : op.seq;
    if (aside || (seq !== undefined && seq <= cursor)) done.push(op);
    else if (seq !== undefined) still.push({ ...op, seq, judged: 1 });
  }
  await letGo(db, done);
  await db.outbox.bulkPut(still);
  await db.parked.bulkPut(parked.filter((row) => row.m.length > 0));
  const aside = new Set(parked.map((row) => row.op));
  await keepAcked(
    db,
    done.filter((op) => !aside.has(op.op)),
    times,
  );
  return done.flatMap((op) => op.m.map(({ t, id }) => keyOf(t, id)));
}

/** Those with a verdict in this answer, and those with an earlier one that the cursor now passes. */
async function concerned(db: BookDb, ids: string[], cursor: number): Promise<Op[]> {
  const wanted = new Set(ids);
  // Verdicts are on what was due first, so nearly all of them are found at once.
  const due = ids.length > 0 ? await unjudgedIn(db).limit(ids.length).toArray() : [];
  const judged = due.filter((op) => wanted.delete(op.op));
  const others = (await db.outbox.bulkGet([...wanted])).filter((op) => op !== undefined);
  const passed = await db.outbox.where("seq").belowOrEqual(cursor).toArray();
  const found = new Map([...passed, ...judged, ...others].map((op) => [op.op, op]));
  return [...found.values()];
}

/** Takes ops out of the outbox, neighbours in one stroke: their ids are nearly in the order they were made. */
async function letGo(db: BookDb, done: readonly Op[]): Promise<void> {
  const gone = new Set(done.map((op) => op.op));
  const ids = [...gone].sort();
  const [first, last] = [ids[0], ids.at(-1)];
  if (first === undefined || last === undefined) return;
  const between = (from: string, to: string) => db.outbox.where("op").between(from, to, true, true);
  const runs: string[][] = [[]];
  for (const id of await between(first, last).primaryKeys()) {
    if (gone.has(id)) runs.at(-1)?.push(id);
    else if (runs.at(-1)?.length) runs.push([]);
  }
  for (const run of runs) {
    const [from, to] = [run[0], run.at(-1)];
    if (from !== undefined && to !== undefined) await between(from, to).delete();
  }
}
