/** The tables of one person's copy of one household's book, on this phone (S21). */
import Dexie, { type Table } from "dexie";
import type { ChangeRecord, Op, State } from "./core/records";
import type { ParkedRow, Row } from "./types";

/** The server's record as it came, unknown kinds and fields included (S15). */
export interface BaseRow {
  key: string;
  record: ChangeRecord;
}

/** What screens read: the record with this phone's waiting ops on top. */
export interface LiveRow extends Row {
  rev: number;
  /** Left after a withdrawn creation, so that open readers notice; swept at the next opening. */
  ghost?: boolean;
}

export interface Draft {
  key: string;
  value: unknown;
}

/** How syncing stands; kept so that a killed app goes on where it was (S17). */
export interface SyncState {
  key: "sync";
  state: "fresh" | "ok" | "offline" | "sign_in" | "trouble";
  trouble?: string;
  failures: number;
  /** Not before this moment (ms since 1970): back-off or the server's Retry-After. */
  nextAt: number;
  lastSync?: string;
  /** Moment of the last full re-pull after a digest mismatch. */
  repulledAt?: number;
  /** True from the mismatch until the re-pull has reached the head. */
  repulling?: boolean;
}

export interface PersistState {
  key: "persist";
  granted: boolean;
}

export type MetaRow = State | SyncState | PersistState;

export class BookDb extends Dexie {
  base!: Table<BaseRow, string>;
  live!: Table<LiveRow, string>;
  outbox!: Table<Op, string>;
  parked!: Table<ParkedRow, string>;
  drafts!: Table<Draft, string>;
  meta!: Table<MetaRow, string>;

  constructor(name: string) {
    // Strict durability (S14): a transaction completes when its data is on the disk, not before. No cache of
    // queries: it copies every row it hands out, and would show what is not yet on the disk.
    super(name, { chromeTransactionDurability: "strict", cache: "disabled" });
    this.version(1).stores({
      base: "key",
      // [t+rev]: the rows of a kind written since a reader last looked.
      live: "key, t, [t+rev]",
      outbox: "op, dseq",
      parked: "op",
      drafts: "key",
      meta: "key",
    });
  }
}
