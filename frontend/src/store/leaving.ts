/**
 * Leaving a page while it reads or writes. WebKit (2.50; a bare page that does nothing else shows it too) may then
 * answer nothing more from IndexedDB, in any page, until the browser is started again. Aborting what is under way as
 * the page goes avoids it and breaks no promise: "saved" is said only after a transaction is complete, and what was
 * cut short has left nothing behind (S14, S15). Other engines finish such a write, so there it is left alone.
 */
import type Dexie from "dexie";

const userAgent = globalThis.navigator?.userAgent ?? "";
const WEBKIT = /AppleWebKit\//.test(userAgent) && !/Chrom(e|ium)\//.test(userAgent);

/** Ends this database's transactions when the page is left, where the engine needs that. */
export function endWhenLeft(db: Dexie, needed: boolean = WEBKIT): void {
  if (!needed) return;
  const running = new Set<IDBTransaction>();
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
  addEventListener("pagehide", () => {
    for (const one of running) end(one);
    db.close();
  });
  // A page kept whole and shown again has no database any more: begin anew.
  addEventListener("pageshow", (event) => {
    if ((event as PageTransitionEvent).persisted) location.reload();
  });
}

function follow(one: IDBTransaction, running: Set<IDBTransaction>): void {
  running.add(one);
  for (const ending of ["complete", "abort"]) one.addEventListener(ending, () => running.delete(one));
}

function end(one: IDBTransaction): void {
  try {
    one.abort();
  } catch {
    // It was complete already; its event had not come yet.
  }
}
