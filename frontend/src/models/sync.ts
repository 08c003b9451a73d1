/** Syncing for the book that is open: started after the first paint, stopped when it is closed. */
import { effect, type ReadonlySignal, signal } from "@preact/signals";
import { openedBook } from "../store";
import { createSync, type Sync } from "../sync";
import { confirmSession, session, settleSignOut, signIns } from "./session";

const running = signal<Sync | null>(null);

/** Tries to sync now: a tap on the standing chip. */
export function syncNow(): void {
  void running.peek()?.kick();
}

export const syncing: ReadonlySignal<Sync | null> = running;

export function startSync(): void {
  void settleSignOut();
  effect(() => {
    if (signIns.value > 0) syncNow();
  });
  effect(() => {
    const book = openedBook.value;
    if (!book) return undefined;
    const household = session.peek()?.household.id ?? book.name.split(":").at(-1) ?? "";
    const sync = createSync({ book, household, confirm: confirmSession });
    running.value = sync;
    void sync.start();
    return () => {
      sync.stop();
      running.value = null;
    };
  });
}
