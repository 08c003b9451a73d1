/** The phone's counters: made once with the local database, then only changed inside transactions. */
import { NO_SUMS } from "./core/digest";
import { ZERO_HLC } from "./core/hlc";
import { type State, splitKey } from "./core/records";
import { newId, randomHex } from "./core/uuid7";
import type { BookDb, BootState, LiveRow, SyncState } from "./db";
import type { Row } from "./types";

export function freshState(): State {
  return {
    key: "state",
    incarnation: newId(),
    node: randomHex(8),
    dseq: 0,
    confirmed: 0,
    hlc: ZERO_HLC,
    cursor: 0,
    digest: NO_SUMS,
    era: 0,
    count: 0,
    ghosts: false,
    rev: 0,
  };
}

export const eraOf = (one: { era?: number } | undefined): number => one?.era ?? 0;

/** Inside a transaction with `meta`: the counters, made at the first use. */
export async function readState(db: BookDb): Promise<State> {
  return ((await db.meta.get("state")) as State | undefined) ?? freshState();
}

export async function readSync(db: BookDb): Promise<SyncState> {
  const kept = (await db.meta.get("sync")) as SyncState | undefined;
  return kept ?? { key: "sync", state: "fresh", failures: 0, nextAt: 0 };
}

/**
 * Inside a transaction with `live`: writes rows under one new revision. A row that is gone (a
 * withdrawn creation) leaves a ghost, so that other tabs notice.
 */
export async function putLive(
  db: BookDb,
  state: State,
  rows: ReadonlyMap<string, Row | undefined>,
): Promise<{ state: State; written: LiveRow[] }> {
  const rev = state.rev + 1;
  const written = [...rows].map(([key, row]): LiveRow => {
    if (row) return { ...row, rev };
    return { key, ...splitKey(key), groups: {}, seq: 0, pending: false, rev, ghost: true };
  });
  await db.live.bulkPut(written);
  const ghosts = written.some((row) => row.ghost) ? { ghosts: true } : {};
  return { state: { ...state, ...ghosts, rev }, written };
}

/** How far a fetching of the whole book has come, when one is under way. */
export async function readBoot(db: BookDb): Promise<BootState | undefined> {
  return (await db.meta.get("boot")) as BootState | undefined;
}
