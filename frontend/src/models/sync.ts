/** Syncing for the book that is open: started after the first paint, stopped when it is closed. */
import { effect, type ReadonlySignal, signal } from "@preact/signals";
import { householdOf, openedBook } from "../store";
import type { Book } from "../store/book";
import { createSync, type Sync } from "../sync";
import { confirmSession, settleSignOut, signIns } from "./session";

const running = signal<Sync | null>(null);

/** Tries to sync now: a tap on the standing chip. */
export function syncNow(): void {
  void running.peek()?.kick();
}

export const syncing: ReadonlySignal<Sync | null> = running;

/** Syncs whatever book is open, from now on; returns what ends that. */
export function startSync(): () => void {
  void settleSignOut();
  const endKicks = effect(() => {
    if (signIns.value > 0) syncNow();
  });
  const endSyncs = effect(() => {
    const book = openedBook.value;
    return book ? syncBook(book) : undefined;
  });
  return () => {
    endKicks();
    endSyncs();
  };
}

function syncBook(book: Book): () => void {
  const sync = createSync({ book, household: householdOf(book.name), confirm: confirmSession });
  running.value = sync;
  void sync.start();
  return () => {
    sync.stop();
    running.value = null;
  };
}
