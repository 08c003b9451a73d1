/**
 * Leaving a page while it reads or writes. WebKit (2.50; a bare page that does nothing else shows it too) may then
 * answer nothing more from IndexedDB, in any page, until the browser is started again. Aborting what is under way as
 * the page goes avoids it and breaks no promise: "saved" is said only after a transaction is complete, and what was
 * cut short has left nothing behind (S14, S15). Other engines finish such a write, so there it is left alone.
 *
 * A page that is kept whole and shown again (pageshow) goes on: the database opens at its next use, a save that was
 * cut short has been refused, and its form says so and still holds what was written.
 */
import type Dexie from "dexie";

const userAgent = globalThis.navigator?.userAgent ?? "";
/** Whether this engine needs its transactions ended before a page goes. */
export const ENDS_WHEN_LEFT = /AppleWebKit\//.test(userAgent) && !/Chrom(e|ium)\//.test(userAgent);

/** Ends this database's transactions when the page is left, where the engine needs that. Returns what stops the watch. */
export function endWhenLeft(db: Dexie, needed: boolean = ENDS_WHEN_LEFT): () => void {
  if (!needed) return () => undefined;
  const running = new Set<IDBTransaction>();
  let left = false;
  db.use({
    stack: "dbcore",
    name: "leaving",
    create: (core) => ({
      ...core,
      transaction(...asked) {
        const made = core.transaction(...asked);
        follow(made as unknown as IDBTransaction, running);
        return made;
      },
    }),
  });
  const leave = () => {
    left = true;
    for (const one of running) end(one);
    // Closed for good, so that nothing opens it again while the page goes.
    db.close();
  };
  const back = () => {
    if (left) db.close({ disableAutoOpen: false });
    left = false;
  };
  addEventListener("pagehide", leave);
  // Captured: before Dexie's own listener, which asks every followed query again.
  addEventListener("pageshow", back, true);
  return () => {
    removeEventListener("pagehide", leave);
    removeEventListener("pageshow", back, true);
  };
}

/** Keeps the transaction in `running` until it is over. */
export function follow(one: IDBTransaction, running: Set<IDBTransaction>): void {
  running.add(one);
  for (const ending of ["complete", "abort"]) one.addEventListener(ending, () => running.delete(one));
}

/** Aborts a transaction, complete or not. */
export function end(one: IDBTransaction): void {
  try {
    one.abort();
  } catch {
    // It was complete already; its event had not come yet.
  }
}
