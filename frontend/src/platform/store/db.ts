/** The tables of one person's copy of one household's book, on this phone (S21). */
import Dexie, { type Table } from "dexie";
import { type ChangeRecord, indexed, type Op, type State } from "./core/records";
import type { ParkedRow, Row, Verdict } from "./types";

/** The server's record as it came, unknown kinds and fields included (S15). */
export interface BaseRow {
  key: string;
  record: ChangeRecord;
  /** State.era when it came; absent means 0. */
  era?: number;
}

/** Ops the server has acknowledged with one answer, kept for a server that may be restored from a backup (S11). */
export interface AckedRow {
  /** Names the row; in one that an older build wrote it is the op's own id, and the row is that op. */
  op: string;
  /** The server's time of the acknowledgement, and this phone's (ms since 1970): gone only when both are 30 days past. */
  at: number;
  mine: number;
  ops: Op[];
}

/** As older builds wrote it: a row an op. */
export type AckedOp = Op & Omit<AckedRow, "ops">;

/** A photo's bytes, until the server has them all and as long as this phone keeps them (S19). */
export interface PhotoRow {
  sha256: string;
  bytes: ArrayBuffer;
  size: number;
  /** "refused": the server does not keep such a picture; it stays here, and `why` says what is wrong with it. */
  state: "waiting" | "sent" | "refused";
  /** How many bytes the server has. */
  have: number;
  /** When it came to this phone (ISO 8601, UTC). */
  at: string;
  why?: Verdict;
}

/** How the sending of photos stands, apart from that of entries (P8). */
export interface PhotoState {
  key: "photos";
  failures: number;
  /** Not before this moment (ms since 1970), where the server asked for it. */
  nextAt: number;
  /** In words, what stood in the way of the last try; nothing where the network alone did. */
  trouble?: string;
  /** The server's epoch when it was last asked which of the sent ones it has. */
  epoch?: string;
}

/** How far the fetching of a whole book has come; there only while it is under way (F51). */
export interface BootState {
  key: "boot";
  /** The page to ask for next; null for the first. */
  after: string | null;
  /** The server's number when the first page was read: the cursor once the last page is stored. */
  head: number;
  epoch: string;
}

/** Unsent entries that went with a cleared store, until the person has heeded it (F36). */
export interface GoneState {
  key: "gone";
  count: number;
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
  state: "fresh" | "ok" | "offline" | "sign_in" | "trouble" | "update";
  trouble?: string;
  failures: number;
  /** Not before this moment (ms since 1970): back-off or the server's Retry-After. */
  nextAt: number;
  lastSync?: string;
  /** Moment when what is really in the table was last summed up. */
  verifiedAt?: number;
  /** Moment of the last full re-pull after a digest mismatch. */
  repulledAt?: number;
  /** True from the mismatch until the re-pull has reached the head. */
  repulling?: boolean;
}

export interface PersistState {
  key: "persist";
  granted: boolean;
}

/** What the newest build that wrote here asks of every build that writes here (F43). */
export interface LayoutState {
  key: "layout";
  /** The lowest layout whose build may write; the others read, export and keep drafts. */
  least: number;
}

/** A day of weather as the server told it; a store of what can be fetched again, so nothing waits for it. */
export interface WeatherRow {
  date: string;
  min_c?: number;
  max_c?: number;
  rain_mm?: number;
  et0_mm?: number;
  wind_m_s?: number;
}

/** How the fetching of weather stands. */
export interface WeatherState {
  key: "weather";
  /** What the server last said: "known", or why there is none. */
  state: "fresh" | "off" | "not_on" | "no_place" | "waiting" | "known";
  /** When the service last answered the server (ISO 8601, UTC). */
  fetchedAt?: string;
  /** Why its last try brought nothing, in one word. */
  trouble?: string;
  cursor: string;
  /** The validator of the last answer. */
  tag: string;
  /** The place and the keeper's word it was asked for: where they change it is asked for at once. */
  wish: string;
  failures: number;
  /** Not before this moment (ms since 1970). */
  nextAt: number;
}

/** The newest version below. A new version only adds; what an older build needs is never taken away. */
export const LAYOUT = 4;
/**
 * Raised to LAYOUT when rows would be spoilt by an older build: since 2 the outbox is looked up by `judged`; since 3
 * the counters tell which ops have left, and acknowledged ones are kept by the answer.
 */
export const LEAST_WRITER = 3;

export type MetaRow =
  | LayoutState
  | State
  | SyncState
  | PersistState
  | BootState
  | GoneState
  | PhotoState
  | WeatherState;

export class BookDb extends Dexie {
  base!: Table<BaseRow, string>;
  live!: Table<LiveRow, string>;
  outbox!: Table<Op, string>;
  parked!: Table<ParkedRow, string>;
  acked!: Table<AckedRow | AckedOp, string>;
  photos!: Table<PhotoRow, string>;
  drafts!: Table<Draft, string>;
  weather!: Table<WeatherRow, string>;
  meta!: Table<MetaRow, string>;

  constructor(name: string) {
    // Strict durability (S14): a transaction completes when its data is on the disk, not before. No cache of
    // queries: it copies every row it hands out, and would show what is not yet on the disk.
    super(name, { chromeTransactionDurability: "strict", cache: "disabled" });
    easeAnswers(this);
    this.version(1).stores({
      base: "key",
      // [t+rev]: the rows of a kind written since a reader last looked.
      live: "key, t, [t+rev]",
      outbox: "op, dseq",
      parked: "op",
      drafts: "key",
      meta: "key",
    });
    // [judged+dseq]: what the server has yet to judge, in order. seq: judged ones the cursor may have passed.
    // keys: ops that touch a record. hole: numbers that carry nothing. So no step reads the whole outbox.
    // [state+at]: photos of one state by age, without reading their bytes.
    this.version(2)
      .stores({
        outbox: "op, dseq, seq, hole, [judged+dseq], *keys",
        acked: "op, at",
        photos: "sha256, state, [state+at]",
      })
      .upgrade((tx) =>
        tx
          .table<Op>("outbox")
          .toCollection()
          .modify((op) => void Object.assign(op, indexed(op))),
      );
    // The same tables; what their rows mean has changed (LEAST_WRITER).
    this.version(3).stores({});
    this.version(LAYOUT).stores({ weather: "date" });
  }
}

/** Nothing but the storing of an answer (`incoming/answers`) writes to both of these. */
const ANSWERED = ["base", "acked"];

/**
 * An answer need not wait for the disk: all of it is the server's, verdicts too. A power cut takes it whole, page, cursor
 * and verdicts, as if it had not come (F4): its ops are in the outbox still, go out again and are known there. Whatever is
 * saved later is strict, and brings what was written before it to the disk. Where an engine kept the later write and
 * not the earlier, the next round's count of the table shows it (F52).
 */
function easeAnswers(db: Dexie): void {
  db.use({
    stack: "dbcore",
    name: "answers",
    create: (core) => ({
      ...core,
      transaction(tables, mode, options) {
        const eased = mode === "readwrite" && ANSWERED.every((table) => tables.includes(table));
        return core.transaction(tables, mode, eased ? { ...options, durability: "relaxed" } : options);
      },
    }),
  });
}
