/** The shapes the store hands to models and screens. */
import type { ReadonlySignal } from "@preact/signals";

export type Kind = string;

export interface GroupState {
  value: any;
  /** Op id of the write that won this group; null when never written. */
  version: string | null;
  hlc?: string;
}

export interface Row {
  /** t + ":" + id */
  key: string;
  t: Kind;
  id: string;
  body?: any;
  groups: Record<string, GroupState>;
  /** Newest server sequence number; 0 while only this phone knows the record. */
  seq: number;
  /** True while an op of this phone for this record waits for the server. */
  pending: boolean;
  by?: string;
  received_at?: string;
}

export interface Mutation {
  t: Kind;
  id: string;
  body?: object;
  /** Whole groups; the store fills in the versions they were based on. */
  set?: Record<string, object>;
}

export interface Verdict {
  code: string;
  message: string;
  fields?: Record<string, string>;
}

/** An op the server could not apply, or would not even read; kept, shown and exported. */
export interface ParkedRow {
  op: string;
  dseq: number;
  /** "parked": the server holds it and says why; "unsendable": it never got through, this phone holds it. */
  where: "parked" | "unsendable";
  why: Verdict;
  at: string;
  m: SentMutation[];
}

export interface SentMutation extends Mutation {
  base?: Record<string, string | null>;
}

export interface Standing {
  /** Ops on this phone that the server has not yet confirmed. */
  waiting: number;
  parked: ParkedRow[];
  /** Photos whose bytes are not yet whole on the server. */
  photosWaiting: number;
  /** "update": this app is too old to send (426); it still fetches, and keeps what waits. */
  state: "saved" | "waiting" | "sending" | "sign_in" | "offline" | "trouble" | "update";
  lastSync?: string;
  /** In words, when state is "trouble". */
  trouble?: string;
  /** Whether the browser promised to keep the store; undefined where it cannot be asked. */
  persisted?: boolean;
  /** Entries not yet sent that went when the browser cleared this phone's store (F36); told until heeded. */
  gone?: number;
}

/** A picture as it is kept and sent: JPEG with nothing beside the picture in it, named by the SHA-256 of its bytes. */
export interface Picture {
  sha256: string;
  bytes: ArrayBuffer;
}

/** Where the full picture is: "waiting" and "refused" on this phone only, "sent" here and on the server. */
export type PictureState = "waiting" | "sent" | "refused";

/** The full pictures on this phone. */
export interface Album {
  /** State by SHA-256; a picture that is not among them is not on this phone. */
  states: ReadonlySignal<ReadonlyMap<string, PictureState>>;
  /** What keeps photos from being sent, in words; undefined where nothing but the network does. */
  trouble: ReadonlySignal<string | undefined>;
  bytes(sha256: string): Promise<ArrayBuffer | undefined>;
  /** Why the server does not keep a refused one. */
  why(sha256: string): Promise<Verdict | undefined>;
  /** Keeps a picture fetched from the server; where there is no room, it is fetched again another time. */
  cache(picture: Picture): Promise<void>;
  /** Lets pictures go that the server has, oldest first, to make room on a full phone; how many went. */
  makeRoom(): Promise<number>;
}

export interface Drafts {
  get<T>(key: string): Promise<T | undefined>;
  put(key: string, value: unknown): Promise<void>;
  remove(key: string): Promise<void>;
  watch<T>(key: string): ReadonlySignal<T | undefined>;
}

/** What models are handed: the whole store as they may use it. */
export interface Store {
  newId(): string;
  /** Pictures are kept in the same transaction as the records that name them. */
  save(mutations: Mutation[], pictures?: readonly Picture[]): Promise<{ op: string }>;
  withdraw(op: string): Promise<boolean>;
  rows(t: Kind): ReadonlySignal<Row[]>;
  row(t: Kind, id: string): ReadonlySignal<Row | undefined>;
  /** False until the rows of this kind have been read once: "nothing yet" is then known to be true. */
  loaded(t: Kind): ReadonlySignal<boolean>;
  /** The newest entries, to be shown until all are read; undefined where it is not known which they are. */
  newest: ReadonlySignal<Row[] | undefined>;
  drafts: Drafts;
  album: Album;
  standing: ReadonlySignal<Standing>;
}
