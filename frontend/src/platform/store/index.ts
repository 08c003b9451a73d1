/**
 * The store as models and screens use it. Behind it stands the book of the signed-in person and
 * household; signals handed out follow when another is opened. The code of books (tables, queries)
 * is a chunk of its own, so that the first paint waits neither for it nor for the database.
 */
import { computed, type ReadonlySignal, signal } from "@preact/signals";
import type { Book } from "./book";
import type { Trouble } from "./room";
import type {
  Album,
  Drafts,
  Kind,
  Mutation,
  ParkedRow,
  Picture,
  PictureState,
  Row,
  Standing,
  Store,
} from "./types";
import type { WeatherKept } from "./weather";

export { newId } from "./core/uuid7";
export type * from "./types";

import { newId } from "./core/uuid7";

const book = signal<Book | null>(null);
/** The open book; null while nobody is signed in. */
export const openedBook: ReadonlySignal<Book | null> = book;

/** Local stores are per person and household (S21, F18). */
export function bookName(person: string, household: string): string {
  return `evenfall:${person}:${household}`;
}

/** The household a book belongs to: its own name says so, whatever the session does meanwhile. */
export function householdOf(name: string): string {
  return name.slice(name.lastIndexOf(":") + 1);
}

/** Whose book it is, and its opening once that has begun. */
interface Chosen {
  name: string;
  opening?: Promise<Book>;
}
let chosen: Chosen | undefined;
const AGAIN_MS = 2000;

/** From now on everything is about this book; it is opened by `openChosen`, at the latest when it is written to. */
export function chooseBookFor(person: string, household: string): void {
  const name = bookName(person, household);
  if (chosen?.name === name) return;
  closeBook();
  chosen = { name };
}

export function openBookFor(person: string, household: string): void {
  chooseBookFor(person, household);
  openChosen();
}

/** Opens the chosen book, if any, and tries again until its code could be read. */
export function openChosen(): void {
  const mine = chosen;
  if (!mine) return;
  opening(mine).catch(() => setTimeout(() => chosen === mine && openChosen(), AGAIN_MS));
}

function opening(mine: Chosen): Promise<Book> {
  mine.opening ??= open(mine).catch((error: unknown) => {
    delete mine.opening;
    throw error;
  });
  return mine.opening;
}

async function open(mine: Chosen): Promise<Book> {
  const { openBook } = await import("./book");
  if (chosen !== mine) throw new Error("This book was closed before it could be opened.");
  const opened = openBook(mine.name);
  book.value = opened;
  return opened;
}

/** Closes the book; everything in it stays on the phone. */
export function closeBook(): void {
  chosen = undefined;
  const open = book.peek();
  book.value = null;
  try {
    open?.close();
  } catch {
    // Of a database that is gone: there is nothing left to close.
  }
}

async function opened(): Promise<Book> {
  if (!chosen) throw new Error("Sign in first: entries belong to a person and a household.");
  return opening(chosen);
}

/**
 * Stores records and the op that carries them, in one strict transaction. Resolves when both are
 * safe on this phone; rejects, with nothing written, when they could not be stored.
 */
export async function save(mutations: Mutation[], pictures?: readonly Picture[]): Promise<{ op: string }> {
  return (await opened()).save(mutations, pictures);
}

const NO_PICTURES: ReadonlyMap<string, PictureState> = new Map();

/** The full pictures of photos on this phone. */
export const album: Album = {
  states: computed(() => book.value?.album.states.value ?? NO_PICTURES),
  trouble: computed(() => book.value?.album.trouble.value),
  bytes: async (sha256) => (await opened()).album.bytes(sha256),
  why: async (sha256) => (await opened()).album.why(sha256),
  cache: async (picture) => (await opened()).album.cache(picture),
  makeRoom: async () => (await opened()).album.makeRoom(),
};

/** Fetched weather on this phone, with its age; undefined until it was read once. */
export const weather: ReadonlySignal<WeatherKept | undefined> = computed(() => book.value?.weather().value);

/** Takes an op back that was never sent; false when it may be on the server: void the entry instead. */
export async function withdraw(op: string): Promise<boolean> {
  return (await opened()).withdraw(op);
}

const NO_ROWS: Row[] = [];
const rowSignals = new Map<Kind, ReadonlySignal<Row[]>>();
const loadedSignals = new Map<Kind, ReadonlySignal<boolean>>();

/** All records of a kind that are not deleted; entries newest first. Struck-out entries are among them. */
export function rows(t: Kind): ReadonlySignal<Row[]> {
  return kept(rowSignals, t, () => computed(() => book.value?.rows(t).value ?? NO_ROWS));
}

/** One record, deleted or not. */
export function row(t: Kind, id: string): ReadonlySignal<Row | undefined> {
  return computed(() => book.value?.row(t, id));
}

/** False until the rows of this kind were read once. */
export function loaded(t: Kind): ReadonlySignal<boolean> {
  return kept(loadedSignals, t, () => computed(() => book.value?.loaded(t).value ?? false));
}

/** The newest entries, to be shown until all are read; undefined where nobody noted which they are. */
export const newest: ReadonlySignal<Row[] | undefined> = computed(() => book.value?.newest("entry").value);

function kept<V>(
  signals: Map<Kind, ReadonlySignal<V>>,
  t: Kind,
  make: () => ReadonlySignal<V>,
): ReadonlySignal<V> {
  let found = signals.get(t);
  if (!found) {
    found = make();
    signals.set(t, found);
  }
  return found;
}

/** Half-filled forms and the spreading job: kept on this phone only, through reload and restart. */
export const drafts: Drafts = {
  get: async <T>(key: string) => (await opened()).drafts.get<T>(key),
  put: async (key, value) => (await opened()).drafts.put(key, value),
  remove: async (key) => (await opened()).drafts.remove(key),
  watch: <T>(key: string) => computed(() => book.value?.drafts.watch<T>(key).value),
};

const NOTHING_WAITS: Standing = { waiting: 0, parked: [], photosWaiting: 0, state: "saved" };

/** Where this phone's entries stand. */
export const standing: ReadonlySignal<Standing> = computed(() => book.value?.standing.value ?? NOTHING_WAITS);

/** Puts what was set aside into the outbox once more, as a new op. False when it was set aside no longer. */
export async function sendParkedAgain({ op }: Pick<ParkedRow, "op">): Promise<boolean> {
  return (await opened()).parkedAgain(op);
}

/** Saves what was set aside as the person mended it: a new op in the outbox, in place of the row. False as above. */
export async function mendParked({ op }: Pick<ParkedRow, "op">, mutations: Mutation[]): Promise<boolean> {
  return (await opened()).parkedAgain(op, mutations);
}

/** The person has read how many unsent entries went with a cleared store (Standing.gone). */
export async function heedGone(): Promise<void> {
  await (await opened()).db.meta.delete("gone");
}

/** What is wrong with this phone's store, if anything. */
export const storeTrouble: ReadonlySignal<Trouble | null> = computed(
  () => book.value?.room.trouble.value ?? null,
);

/** Lets go of the bytes of photos that the server has whole (S19); how many. */
export async function freeSentPhotos(): Promise<number> {
  return (await opened()).db.photos.where("state").equals("sent").delete();
}

/** Throws away what was set aside: only on the person's own tap (P1). */
export async function discardParked({ op }: Pick<ParkedRow, "op">): Promise<void> {
  return (await opened()).discardParked(op);
}

/** Everything this phone holds of the book, for the person to keep. */
export async function exportAll(): Promise<object> {
  return { exported_at: new Date().toISOString(), ...(await (await opened()).exportAll()) };
}

/** The whole store as models are handed it. */
export const store: Store = { newId, save, withdraw, rows, row, loaded, newest, drafts, album, standing };
