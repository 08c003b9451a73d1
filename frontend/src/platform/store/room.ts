/**
 * The room a book has on this phone, and what can go wrong with it: no space left (F37), a connection the browser lost
 * in the background (F38), another tab that brings the tables up to date (F41), tables written by a newer build (F43).
 * In none of them is anything written by half, thrown away or said to be saved when it is not.
 */
import { type ReadonlySignal, signal } from "@preact/signals";
import { type BookDb, LAYOUT, type LayoutState, LEAST_WRITER } from "./db";

export type Trouble =
  /** A save found no space. */
  | "full"
  /** A save failed though it was tried anew on a fresh connection. */
  | "lost"
  /** Another tab holds the older tables open; this one waits for it. */
  | "blocked"
  /** Another tab has brought the tables up to date; this page's build is the older one. */
  | "older_page"
  /** A newer build has written what this one would spoil: read, export, and draft, but save nothing. */
  | "newer";

const SAYS: Record<Trouble, string> = {
  full: "This phone has no room left, so nothing was saved. What you typed is still there.",
  lost: "This phone's store did not answer, so nothing was saved. What you typed is still there; try again.",
  blocked:
    "Another tab still holds the older book. Look at that tab once, or close it; this page then goes on.",
  older_page: "This page is older than the app in another tab: open it again. What you typed is kept.",
  newer:
    "This phone's book was written by a newer version of the app. It can be read and exported here, but not " +
    "written to until this page is brought up to date.",
};

/** A write that left nothing behind, with a sentence for the person as its message. */
export class NotStored extends Error {
  override readonly name = "NotStored";
  constructor(
    readonly kind: Trouble,
    why?: unknown,
  ) {
    super(SAYS[kind], { cause: why });
  }
}

export interface Room {
  readonly trouble: ReadonlySignal<Trouble | null>;
  /**
   * A write the person asked for, all or nothing. On a lost connection it is made once more on a new one, with
   * `again` true: the first may have been completed and only its news been lost. Raises NotStored.
   */
  write<V>(work: (again: boolean) => Promise<V>): Promise<V>;
  /** What went wrong while syncing wrote, in words; what else it may be, as it came. */
  explain(error: unknown): unknown;
}

/** Watches over a book's tables; to be called before they are opened. */
export function keepRoom(db: BookDb): Room {
  const trouble = signal<Trouble | null>(null);
  let readOnly = false;

  db.use({
    stack: "dbcore",
    name: "layout",
    create: (core) => ({
      ...core,
      transaction(tables, mode, options) {
        // What is typed stays typed: drafts have had one shape in every layout, and keep it.
        const spoils = mode === "readwrite" && tables.some((table) => table !== "drafts");
        if (readOnly && spoils) throw new NotStored("newer");
        return core.transaction(tables, mode, options);
      },
    }),
  });
  // Dexie then closes the connection, which waits for what is under way, and opens it again at the next use.
  db.on("versionchange", ({ newVersion }) => {
    if (newVersion) trouble.value = "older_page";
  });
  db.on("blocked", () => {
    trouble.value = "blocked";
  });
  db.on(
    "ready",
    async (opened) => {
      if (trouble.peek() === "blocked") trouble.value = null;
      readOnly = await newerThanThis(opened as BookDb);
      if (readOnly) trouble.value = "newer";
    },
    true,
  );

  async function write<V>(work: (again: boolean) => Promise<V>): Promise<V> {
    try {
      const done = await work(false).catch((error: unknown) => onceMore(error, work));
      if (trouble.peek() === "full" || trouble.peek() === "lost") trouble.value = null;
      return done;
    } catch (error) {
      const refused = explain(error);
      if (refused instanceof NotStored) {
        // Said again each time: what was put away after the first failure must not hide the next.
        trouble.value = null;
        trouble.value = refused.kind;
      }
      throw refused;
    }
  }

  async function onceMore<V>(error: unknown, work: (again: boolean) => Promise<V>): Promise<V> {
    if (!isLost(error)) throw error;
    db.close({ disableAutoOpen: false });
    return work(true);
  }

  return { trouble, write, explain };
}

/** Whether a newer build has written here what this one would spoil; notes what this one asks of older ones. */
async function newerThanThis(db: BookDb): Promise<boolean> {
  const kept = (await db.meta.get("layout")) as LayoutState | undefined;
  const least = kept?.least ?? 0;
  if (least > LAYOUT) return true;
  // Noted at the next opening if there is no room for it now.
  if (least < LEAST_WRITER) await db.meta.put({ key: "layout", least: LEAST_WRITER }).catch(() => undefined);
  return false;
}

function explain(error: unknown): unknown {
  if (error instanceof NotStored) return error;
  const kept = causes(error).find((cause) => cause instanceof NotStored);
  if (kept) return kept;
  if (isFull(error)) return new NotStored("full", error);
  return isLost(error) ? new NotStored("lost", error) : error;
}

/** An error with what it was caused by; Dexie keeps the browser's own as `inner`. */
function causes(error: unknown): Error[] {
  const all: Error[] = [];
  for (let one: any = error; one instanceof Error && all.length < 8; one = (one as any).inner ?? one.cause) {
    all.push(one);
  }
  const many = (all[0] as { failures?: unknown })?.failures;
  return Array.isArray(many) && many[0] ? [...all, ...causes(many[0])] : all;
}

const FULL = /quota|full disk|disk is full|no space/i;
const LOST = /connection.*(lost|closing|closed)|internal error/i;

function isFull(error: unknown): boolean {
  return causes(error).some(({ name, message }) => name === "QuotaExceededError" || FULL.test(message));
}

/** Lost by the browser, not ended by this page: a page that is left ends its own transactions (leaving.ts). */
function isLost(error: unknown): boolean {
  if (isFull(error)) return false;
  return causes(error).some(
    ({ name, message }) => name === "UnknownError" || name === "InvalidStateError" || LOST.test(message),
  );
}
