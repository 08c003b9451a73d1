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
import { browserWorld, type World } from "./world";

export interface Sync {
  /** Begins; resolves after this tab's first try, which waits until it leads. */
  start(): Promise<void>;
  stop(): void;
  /** Try now. Resolves when the try is over; another tab may be the one that syncs. */
  kick(): Promise<void>;
}

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
  const stopping = new AbortController();
  /** This tab's present time as the leader; over when it stops or another tab leads. */
  let term = new AbortController();
  const timer = createTimer(world, kick);
  let endings: (() => void)[] = [];
  let news: News | undefined;
  let leading = false;
  let running: Promise<void> | undefined;
  let again = false;

  async function kick(): Promise<void> {
    if (!leading || stopping.signal.aborted) return;
    again = running !== undefined;
    running ??= tries().finally(() => {
      running = undefined;
    });
    await running;
  }

  /** One try, and another when something asked for one meanwhile. */
  async function tries(): Promise<void> {
    do {
      again = false;
      timer.clear();
      const pause = await oneTry();
      if (leading && !stopping.signal.aborted) timer.sooner(pause);
    } while (again && leading && !stopping.signal.aborted);
  }

  /** Resolves with the pause until the next try. Whatever goes wrong, there is a next. */
  async function oneTry(): Promise<number> {
    try {
      const wait = (await readSync(book.db)).nextAt - world.now();
      // Only the server's own Retry-After holds a try back, and a clock set back must not stretch it for ever.
      if (wait > 0 && wait <= MOST_RETRY_AFTER_MS) return wait;
      book.sending.value = true;
      return await noted(book, world, await exchange.attempt(term.signal), news?.flowing());
    } catch (error) {
      return await noted(book, world, broken(book.room.explain(error))).catch(() => IDLE_MS);
    } finally {
      book.sending.value = false;
    }
  }

  async function start(): Promise<void> {
    const release = await world.lead(book.name, stopping.signal, lost).catch(() => undefined);
    if (!release) return;
    if (stopping.signal.aborted) return release();
    leading = true;
    term = new AbortController();
    news = world.news?.(given.household, heard, () => timer.sooner(IDLE_MS));
    endings = [
      release,
      () => news?.stop(),
      world.onWake(kick),
      followSaves(book, () => timer.sooner(AFTER_SAVE_MS)),
    ];
    await kick();
  }

  /** Another tab leads now: this one does nothing more until it is its turn again. */
  function lost(): void {
    if (stopping.signal.aborted) return;
    endTerm();
    void start();
  }

  function endTerm(): void {
    leading = false;
    term.abort();
    timer.clear();
    for (const end of endings) end();
    endings = [];
  }

  /** The household is at this number. What this tab just sent is in the answer it waits for. */
  async function heard(seq: number): Promise<void> {
    await running;
    if ((await readState(book.db)).cursor < seq) await kick();
  }

  function stop(): void {
    stopping.abort();
    endTerm();
  }

  return { start, stop, kick };
}

/** One timer, which can be brought forward but not put off. */
export function createTimer(world: World, work: () => unknown) {
  let cancel: () => void = () => undefined;
  let dueAt = Number.POSITIVE_INFINITY;
  function clear(): void {
    cancel();
    dueAt = Number.POSITIVE_INFINITY;
  }
  function sooner(ms: number): void {
    // A timer that is overdue was set before the clock jumped ahead (F27): it says nothing about now.
    const jumped = dueAt < world.now();
    if (!jumped && world.now() + ms >= dueAt) return;
    cancel();
    dueAt = world.now() + ms;
    cancel = world.after(ms, work);
  }
  return { clear, sooner };
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
