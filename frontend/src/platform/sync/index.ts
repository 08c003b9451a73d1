/**
 * Syncing one open book, for ever (S17): at the start, on becoming visible, on `online`, 2 s after
 * a save, and by a jittered back-off. How it stands is kept in the store, where every tab and the
 * next start read it. The server's word is the only verdict; the browser's "offline" is none.
 * One tab does it at a time (S16); the leading one also hears the server's news, which are a hint to look.
 */
import { liveQuery } from "dexie";
import type { Book } from "../store/book";
import type { SyncState } from "../store/db";
import { readState, readSync } from "../store/state";
import { AFTER_SAVE_MS, CAP_MS, IDLE_MS, MOST_RETRY_AFTER_MS, pauseMs } from "./backoff";
import { createExchange } from "./exchange";
import { type Failure, request } from "./http";
import type { News } from "./news";
import type { Request } from "./round";
import { createTurns, type Turn, type Turns } from "./turns";
import { browserWorld, type World } from "./world";

export type Sync = Turns;

export interface SyncParts {
  book: Book;
  household: string;
  /** Whether the server knows this phone's person; "other": somebody else's cookie, send nothing (F18). */
  confirm: () => Promise<"same" | "other" | "unknown">;
  send?: Request;
  world?: World;
}

const DIFFERS =
  "This phone's book and the household's differ after everything was fetched again. " +
  "Nothing you entered is lost; it is tried again every hour.";

export function createSync(given: SyncParts): Sync {
  const parts = { send: request, world: browserWorld, ...given };
  const { book, world } = parts;
  const exchange = createExchange(parts);
  let news: News | undefined;

  /** Resolves with the pause until the next try. Whatever goes wrong, there is a next. */
  async function oneTry(signal: AbortSignal): Promise<number> {
    try {
      const wait = (await readSync(book.db)).nextAt - world.now();
      // Only the server's own Retry-After holds a try back, and a clock set back must not stretch it for ever.
      if (wait > 0 && wait <= MOST_RETRY_AFTER_MS) return wait;
      book.sending.value = true;
      return await noted(book, world, await exchange.attempt(signal), news?.flowing());
    } catch (error) {
      return await noted(book, world, broken(book.room.explain(error))).catch(() => IDLE_MS);
    } finally {
      book.sending.value = false;
    }
  }

  function begin(turn: Turn): (() => void)[] {
    const heard = (seq: number) => behind(turn, seq);
    news = world.news?.(given.household, heard, () => turn.sooner(IDLE_MS));
    return [() => news?.stop(), followSaves(book, () => turn.sooner(AFTER_SAVE_MS))];
  }

  /** The household is at this number. What this tab just sent is in the answer it waits for. */
  async function behind(turn: Turn, seq: number): Promise<void> {
    await turn.quiet();
    if ((await readState(book.db)).cursor < seq) await turn.kick();
  }

  return createTurns(world, book.name, oneTry, begin);
}

/** Saves of this tab and of others: the newest op is another one. */
function followSaves(book: Book, saved: () => void): () => void {
  let newest: string | undefined;
  const subscription = liveQuery(() => book.db.outbox.orderBy("dseq").last()).subscribe((op) => {
    if (op && op.op !== newest && op.judged === 0) saved();
    newest = op?.op;
  });
  return () => subscription.unsubscribe();
}

/** Writes down how the try ended; returns the pause until the next, a long one while the server's news flow. */
async function noted(
  book: Book,
  world: World,
  failure: Failure | undefined,
  flowing = false,
): Promise<number> {
  const { trouble: _trouble, ...kept } = await readSync(book.db);
  if (failure) return notedFailure(book, world, kept, failure);
  const differs = kept.repulling === true;
  const how: Pick<SyncState, "state" | "trouble"> = differs
    ? { state: "trouble", trouble: DIFFERS }
    : { state: "ok" };
  const lastSync = new Date(world.now()).toISOString();
  await book.db.meta.put({ ...kept, failures: 0, nextAt: 0, lastSync, ...how });
  return world.visible()
    ? (flowing ? CAP_MS : IDLE_MS) * (0.9 + 0.2 * world.chance())
    : pauseMs(Number.POSITIVE_INFINITY, world.chance());
}

async function notedFailure(book: Book, world: World, kept: SyncState, failure: Failure): Promise<number> {
  const failures = kept.failures + 1;
  const asked = Math.min((failure.retryAfterS ?? 0) * 1000, MOST_RETRY_AFTER_MS);
  const nextAt = asked > 0 ? world.now() + asked : 0;
  const state = stateAfter(failure);
  const trouble = state === "trouble" ? { trouble: failure.message } : {};
  await book.db.meta.put({ ...kept, failures, nextAt, state, ...trouble });
  return Math.max(asked, pauseMs(failures, world.chance()));
}

function stateAfter({ status, code }: Failure): SyncState["state"] {
  if (status === 401) return "sign_in";
  if (status === 426) return "update";
  return status === 0 && code !== "broken" ? "offline" : "trouble";
}

function broken(error: unknown): Failure {
  const why = error instanceof Error ? error.message : String(error);
  return { ok: false, status: 0, code: "broken", message: `Syncing stopped on this phone: ${why}` };
}
