/**
 * Small things read before the first paint: who is signed in, the theme. Local storage is read at once, but a browser
 * killed within seconds may not have kept it; so what must not be forgotten is in IndexedDB too, where a completed
 * strict write stays. Either may be refused (private windows, a full phone); the app then works on and merely forgets.
 */
import { ENDS_WHEN_LEFT, end, follow } from "../store/leaving";

export function recall(key: string): unknown {
  try {
    const text = localStorage.getItem(key);
    return text === null ? undefined : JSON.parse(text);
  } catch {
    return undefined;
  }
}

/** Keeps a JSON-able value; undefined forgets it. Returns whether it was kept. */
export function remember(key: string, value: unknown): boolean {
  try {
    if (value === undefined) localStorage.removeItem(key);
    else localStorage.setItem(key, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

/** The keys of all that is kept. */
export function remembered(): string[] {
  try {
    return Object.keys(localStorage);
  } catch {
    return [];
  }
}

/** The database's name is none a book could have: those carry a person and a household. */
const DATABASE = "evenfall";
const TABLE = "kept";
/** An engine that answers nothing (WebKit after an ill-timed leaving) must not hold up what can do without it. */
const LONGEST_WAIT_MS = 1500;

/** What is kept for good under this key; undefined where there is none or no answer in time. */
export function recallKept(key: string): Promise<unknown> {
  return answered("readonly", (table) => table.get(key)).catch(() => undefined);
}

/**
 * The same, however long the answer takes: no answer yet is not "nothing kept". `late` is called once it has taken long.
 * undefined where nothing is kept, or where the browser refuses to say, asked twice.
 */
export async function recallSurely(key: string, late: () => void): Promise<unknown> {
  const waiting = setTimeout(late, LONGEST_WAIT_MS);
  const once = () => opened().then((db) => asked(db, "readonly", (table) => table.get(key)));
  try {
    return await once().catch(once);
  } catch {
    return undefined;
  } finally {
    clearTimeout(waiting);
  }
}

/** Keeps a JSON-able value for good. Resolves when it is on the disk, or will not be: local storage may hold it still. */
export async function keepForGood(key: string, value: unknown): Promise<boolean> {
  return answered("readwrite", (table) => table.put(value, key)).then(
    () => true,
    () => false,
  );
}

type Ask = (table: IDBObjectStore) => IDBRequest;

function answered(mode: IDBTransactionMode, ask: Ask): Promise<unknown> {
  let waiting: ReturnType<typeof setTimeout>;
  const late = new Promise<never>((_, refuse) => {
    waiting = setTimeout(() => refuse(new Error("The database does not answer.")), LONGEST_WAIT_MS);
  });
  return Promise.race([opened().then((db) => asked(db, mode, ask)), late]).finally(() =>
    clearTimeout(waiting),
  );
}

function opened(): Promise<IDBDatabase> {
  return new Promise((done, refuse) => {
    const opening = indexedDB.open(DATABASE, 1);
    opening.onupgradeneeded = () => opening.result.createObjectStore(TABLE);
    opening.onsuccess = () => done(opening.result);
    opening.onerror = () => refuse(opening.error);
  });
}

/** One transaction; ended when the page is left where the engine needs that, as the book's are. */
function asked(db: IDBDatabase, mode: IDBTransactionMode, ask: Ask): Promise<unknown> {
  const running = new Set<IDBTransaction>();
  const leave = () => running.forEach(end);
  if (ENDS_WHEN_LEFT) addEventListener("pagehide", leave);
  return new Promise((done, refuse) => {
    const transaction = db.transaction(TABLE, mode, { durability: "strict" });
    follow(transaction, running);
    const request = ask(transaction.objectStore(TABLE));
    transaction.oncomplete = () => done(request.result);
    transaction.onabort = () => refuse(transaction.error ?? new Error("The page was left."));
  }).finally(() => {
    removeEventListener("pagehide", leave);
    db.close();
  });
}
