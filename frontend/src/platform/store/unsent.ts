/**
 * How many entries wait on this phone, noted beside the store: a browser short of space may clear IndexedDB, and then
 * nothing in it can say what was lost. Local storage often outlives that; where it does, the person is told (F36). A
 * store cleared with nothing waiting is fetched again from the server and needs no words (F35).
 */
import type { BookDb } from "./db";

export interface Ledger {
  read(): number;
  note(waiting: number): void;
}

/** In local storage, under the book's name; without it (private windows) nothing is known and nothing is said. */
export function browserLedger(book: string): Ledger {
  const key = `evenfall.unsent.${book}`;
  return {
    read() {
      try {
        return Number(localStorage.getItem(key)) || 0;
      } catch {
        return 0;
      }
    },
    note(waiting) {
      try {
        if (waiting > 0) localStorage.setItem(key, String(waiting));
        else localStorage.removeItem(key);
      } catch {
        // Full or refused: the app then merely cannot tell.
      }
    },
  };
}

/** At opening, before anything is written: a store without counters never was, or was cleared. */
export async function noticeLoss(db: BookDb, ledger: Ledger): Promise<void> {
  const count = ledger.read();
  if (count === 0) return;
  await db.transaction("rw", db.meta, async () => {
    if (await db.meta.get("state")) return;
    const told = await db.meta.get("gone");
    if (!told) await db.meta.put({ key: "gone", count });
  });
}
