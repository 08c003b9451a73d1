/** One whole try: who is signed in, which device this is, rounds until quiet, the digest. */
import { type SyncAnswer, setDevice, startRepull, trueDigest } from "../store/answers";
import { digestText } from "../store/core/digest";
import { readState, readSync } from "../store/state";
import type { Failure } from "./http";
import type { SyncParts } from "./index";
import { createRounds, type Request } from "./round";

/** Halving 200 ops down to one takes eight; more rounds than this without news mean that both sides misunderstand. */
const IDLE_ROUNDS = 12;

/** A full re-pull that did not help is not tried again sooner. */
const REPULL_EVERY_MS = 60 * 60_000;

function failure(status: number, code: string, message: string): Failure {
  return { ok: false, status, code, message };
}

const SIGNED_OUT = failure(
  401,
  "other_person",
  "Somebody else is signed in on this phone. Sign in again to send what waits.",
);
const STUCK = failure(
  500,
  "stuck",
  "The server keeps asking for the same again. What you entered stays on this phone.",
);
const CLOSED =
  "The server does not open this household to this phone. What you entered stays here, and can be taken along " +
  "with “Export everything”.";

const moved = (answer: SyncAnswer): boolean => answer.results.length > 0 || answer.changes.length > 0;

export interface Exchange {
  /** Undefined when all is quiet and settled; otherwise what stood in the way. */
  attempt(stopped: AbortSignal): Promise<Failure | undefined>;
}

export function createExchange(parts: Required<SyncParts>): Exchange {
  const { book, household, confirm, send, world } = parts;
  const { db } = book;
  const rounds = createRounds(book, household, send, () => new Date(world.now()).toISOString());
  let confirmed = false;
  let verified = false;
  let deviceDoubted = false;

  async function attempt(stopped: AbortSignal): Promise<Failure | undefined> {
    if (!confirmed) {
      const who = await confirm();
      if (who === "other") return SIGNED_OUT;
      confirmed = who === "same";
    }
    return (await registered(parts)) ?? (await untilQuiet(stopped));
  }

  async function untilQuiet(stopped: AbortSignal): Promise<Failure | undefined> {
    for (let idle = 0; !stopped.aborted; ) {
      const ended = await rounds.next();
      if (ended.kind === "later") return doubted(ended.failure);
      if (ended.kind === "done" && ended.quiet && !(await repullNeeded(ended.answer))) return undefined;
      idle = ended.kind === "done" && moved(ended.answer) ? 0 : idle + 1;
      if (idle > IDLE_ROUNDS) return STUCK;
    }
    return undefined;
  }

  /** A server that does not know this device (it was set up anew) gives out another id; asked once a start. */
  async function doubted(refusal: Failure): Promise<Failure> {
    if (refusal.status === 401) confirmed = false;
    if (refusal.status !== 404) return refusal;
    if (!deviceDoubted) await setDevice(db, undefined);
    deviceDoubted = true;
    return { ...refusal, message: CLOSED };
  }

  /** At quiet both digests must agree (P4); if not, everything is pulled again, the outbox untouched. */
  async function repullNeeded(answer: SyncAnswer): Promise<boolean> {
    if (!answer.digest || answer.cursor !== answer.head || (await db.outbox.count()) > 0) return false;
    const ours = verified ? digestText((await readState(db)).digest) : await trueDigest(db);
    verified = ours === answer.digest;
    const kept = await readSync(db);
    if (verified) {
      if (kept.repulling) await db.meta.put({ ...kept, repulling: false });
      return false;
    }
    const lately = world.now() - (kept.repulledAt ?? Number.NEGATIVE_INFINITY) < REPULL_EVERY_MS;
    await db.meta.put({ ...kept, repulling: true, ...(lately ? {} : { repulledAt: world.now() }) });
    if (!lately) await startRepull(db);
    return !lately;
  }

  return { attempt };
}

/** The device id comes from the server at the first meeting (S5). */
async function registered({
  book,
  household,
  send,
}: {
  book: SyncParts["book"];
  household: string;
  send: Request;
}) {
  if ((await readState(book.db)).device) return undefined;
  const outcome = await send<{ device: string }>("POST", `households/${household}/devices`, {
    name: phoneName(),
  });
  if (!outcome.ok) return outcome.status === 404 ? { ...outcome, message: CLOSED } : outcome;
  await setDevice(book.db, outcome.value.device);
  return undefined;
}

/** What the household sees in its list of phones. */
function phoneName(): string {
  const agent = globalThis.navigator?.userAgent ?? "";
  const known = ["iPhone", "iPad", "Android", "Windows", "Macintosh", "Linux"].find((name) =>
    agent.includes(name),
  );
  return known === "Android" ? "Android phone" : known === "Macintosh" ? "Mac" : (known ?? "Phone");
}
