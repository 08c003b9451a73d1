/**
 * Syncing one open book, for ever (S17): at the start, on becoming visible, on `online`, 2 s after
 * a save, and by a jittered back-off. How it stands is kept in the store, where every tab and the
 * next start read it. The server's word is the only verdict; the browser's "offline" is none.
 */
import { liveQuery } from "dexie";
import { type SyncAnswer, setDevice, startRepull, trueDigest } from "../store/answers";
import type { Book } from "../store/book";
import { digestText } from "../store/core/digest";
import type { SyncState } from "../store/db";
import { readState, readSync } from "../store/state";
import { AFTER_SAVE_MS, IDLE_MS, pauseMs } from "./backoff";
import { type Failure, request } from "./http";
import { createRounds, type Request } from "./round";
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

const REPULL_EVERY_MS = 60 * 60_000;

/** Halving 200 ops down to one takes eight; more rounds than this without news mean that both sides misunderstand. */
const IDLE_ROUNDS = 12;

const STUCK: Failure = {
  ok: false,
  status: 500,
  code: "stuck",
  message: "The server keeps asking for the same again. What you entered stays on this phone.",
};

const moved = (answer: SyncAnswer): boolean => answer.results.length > 0 || answer.changes.length > 0;

const SIGNED_OUT: Failure = {
  ok: false,
  status: 401,
  code: "other_person",
  message: "Somebody else is signed in on this phone. Sign in again to send what waits.",
};

export function createSync({
  book,
  household,
  confirm,
  send = request,
  world = browserWorld,
}: SyncParts): Sync {
  const { db } = book;
  const stopping = new AbortController();
  const iso = () => new Date(world.now()).toISOString();
  const rounds = createRounds(book, household, send, iso);
  const endings: (() => void)[] = [];
  let leading = false;
  let confirmed = false;
  let verified = false;
  let deviceDoubted = false;
  let running: Promise<void> | undefined;
  let again = false;
  let cancelTimer: () => void = () => undefined;
  let dueAt = Number.POSITIVE_INFINITY;

  function plan(ms: number): void {
    if (!leading || stopping.signal.aborted) return;
    cancelTimer();
    dueAt = world.now() + ms;
    cancelTimer = world.after(ms, kick);
  }

  function planSooner(ms: number): void {
    if (world.now() + ms < dueAt) plan(ms);
  }

  async function kick(): Promise<void> {
    if (!leading || stopping.signal.aborted) return;
    again = running !== undefined;
    running ??= whole().finally(() => {
      running = undefined;
    });
    await running;
  }

  /** One try, and another when something asked for one meanwhile. */
  async function whole(): Promise<void> {
    do {
      again = false;
      dueAt = Number.POSITIVE_INFINITY;
      await attempt();
    } while (again && !stopping.signal.aborted);
  }

  async function attempt(): Promise<void> {
    try {
      const kept = await readSync(db);
      const wait = kept.nextAt - world.now();
      // Only the server's own Retry-After holds a try back; a clock set back must not stretch it for ever.
      if (wait > 0 && wait <= REPULL_EVERY_MS) return plan(wait);
      book.sending.value = true;
      const failure = await exchange();
      await (failure ? failed(kept, failure) : succeeded());
    } catch (error) {
      if (!stopping.signal.aborted)
        await failed(await readSync(db), broken(error)).catch(() => plan(IDLE_MS));
    } finally {
      book.sending.value = false;
    }
  }

  async function exchange(): Promise<Failure | undefined> {
    if (!confirmed) {
      const who = await confirm();
      if (who === "other") return SIGNED_OUT;
      confirmed = who === "same";
    }
    const refusal = await register();
    if (refusal) return refusal;
    for (let idle = 0; !stopping.signal.aborted; ) {
      const ended = await rounds.next();
      if (ended.kind === "later") return doubted(ended.failure);
      idle = ended.kind === "done" && moved(ended.answer) ? 0 : idle + 1;
      if (idle > IDLE_ROUNDS) return STUCK;
      if (ended.kind === "done" && ended.quiet && !(await repullNeeded(ended.answer))) return undefined;
    }
    return undefined;
  }

  /** The device id comes from the server at the first meeting (S5). */
  async function register(): Promise<Failure | undefined> {
    if ((await readState(db)).device) return undefined;
    const outcome = await send<{ device: string }>("POST", `households/${household}/devices`, {
      name: phoneName(),
    });
    if (!outcome.ok) return outcome;
    await setDevice(db, outcome.value.device);
    return undefined;
  }

  /** A server that does not know this device (it was set up anew) gives out another id; asked once a start. */
  async function doubted(failure: Failure): Promise<Failure> {
    if (failure.status === 401) confirmed = false;
    if (failure.status === 404 && !deviceDoubted) {
      deviceDoubted = true;
      await setDevice(db, undefined);
    }
    return failure;
  }

  /** At quiet both digests must agree (P4); if not, everything is pulled again, the outbox untouched. */
  async function repullNeeded(answer: SyncAnswer): Promise<boolean> {
    const state = await readState(db);
    if (!answer.digest || answer.cursor !== answer.head || (await db.outbox.count()) > 0) return false;
    const ours = verified ? digestText(state.digest) : await trueDigest(db);
    verified = true;
    const kept = await readSync(db);
    if (ours === answer.digest) {
      if (kept.repulling) await db.meta.put({ ...kept, repulling: false });
      return false;
    }
    verified = false;
    const lately = world.now() - (kept.repulledAt ?? Number.NEGATIVE_INFINITY) < REPULL_EVERY_MS;
    await db.meta.put({ ...kept, repulling: true, ...(lately ? {} : { repulledAt: world.now() }) });
    if (!lately) await startRepull(db);
    return !lately;
  }

  async function succeeded(): Promise<void> {
    const { repulling } = await readSync(db);
    await note({ state: repulling ? "trouble" : "ok", ...(repulling ? { trouble: DIFFERS } : {}) });
    plan(world.visible() ? IDLE_MS * (0.9 + 0.2 * world.chance()) : pauseMs(99, world.chance()));
  }

  async function note(how: Pick<SyncState, "state" | "trouble">): Promise<void> {
    const { trouble: _trouble, ...kept } = await readSync(db);
    await db.meta.put({ ...kept, failures: 0, nextAt: 0, lastSync: iso(), ...how });
  }

  async function failed(kept: SyncState, failure: Failure): Promise<void> {
    const failures = kept.failures + 1;
    const asked = Math.min((failure.retryAfterS ?? 0) * 1000, REPULL_EVERY_MS);
    const { trouble: _trouble, ...now } = await readSync(db);
    const told = stateAfter(failure);
    const trouble = told === "trouble" ? { trouble: failure.message } : {};
    await db.meta.put({
      ...now,
      failures,
      nextAt: asked > 0 ? world.now() + asked : 0,
      state: told,
      ...trouble,
    });
    plan(Math.max(asked, pauseMs(failures, world.chance())));
  }

  /** Saves of this tab and of others: the newest op's id changes. */
  function followSaves(): () => void {
    let newest: string | undefined;
    const subscription = liveQuery(() => db.outbox.orderBy("dseq").last()).subscribe((op) => {
      if (op && op.op !== newest && op.seq === undefined) planSooner(AFTER_SAVE_MS);
      newest = op?.op;
    });
    return () => subscription.unsubscribe();
  }

  async function start(): Promise<void> {
    const release = await world.lead(book.name, stopping.signal).catch(() => undefined);
    if (!release) return;
    endings.push(release);
    if (stopping.signal.aborted) return release();
    leading = true;
    endings.push(world.onWake(kick), followSaves());
    await kick();
  }

  function stop(): void {
    stopping.abort();
    cancelTimer();
    for (const end of endings) end();
  }

  return { start, stop, kick };
}

const DIFFERS =
  "This phone's book and the household's differ after everything was fetched again. " +
  "Nothing you entered is lost; it is tried again every hour.";

function stateAfter({ status, code }: Failure): SyncState["state"] {
  if (status === 401) return "sign_in";
  return status === 0 && code !== "broken" ? "offline" : "trouble";
}

function broken(error: unknown): Failure {
  const why = error instanceof Error ? error.message : String(error);
  return { ok: false, status: 0, code: "broken", message: `Syncing stopped on this phone: ${why}` };
}

/** What the household sees in its list of phones. */
function phoneName(): string {
  const agent = globalThis.navigator?.userAgent ?? "";
  const known = ["iPhone", "iPad", "Android", "Windows", "Macintosh", "Linux"].find((name) =>
    agent.includes(name),
  );
  return known === "Android" ? "Android phone" : known === "Macintosh" ? "Mac" : (known ?? "Phone");
}
