/** One whole try: who is signed in, which device this is, rounds until quiet, the digest. */

import type { State } from "../store/core/records";
import type { SyncAnswer } from "../store/incoming/answers";
import { anyUnjudged, setDevice } from "../store/lines";
import { readState } from "../store/state";
import { createAgreement } from "./agreement";
import { createBootstrap } from "./bootstrap";
import type { Failure, Outcome } from "./http";
import type { SyncParts } from "./index";
import { createRounds, PAGE, type Request } from "./round";

/** Halving 200 ops down to one takes eight; more rounds than this without news mean that both sides misunderstand. */
const IDLE_ROUNDS = 12;

/** A new device id that is refused at once is asked for again after this: a server can be restored twice. */
const RENEW_EVERY_MS = 60 * 60_000;

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

/** No verdict and nobody's fault: the book was closed, or another tab leads, while the phone read what to send. */
const STOPPED = failure(0, "stopped", "Syncing was stopped.");

const moved = (answer: SyncAnswer): boolean => answer.results.length > 0 || answer.changes.length > 0;

/** More of a book than one page of changes is ahead, and nothing of it is here: whole pages are quicker. */
const muchAhead = (answer: SyncAnswer, asked: State): boolean =>
  asked.cursor === 0 && answer.has_more && answer.head - answer.cursor > PAGE;

export interface Exchange {
  /** Undefined when all is quiet and settled; otherwise what stood in the way. */
  attempt(stopped: AbortSignal): Promise<Failure | undefined>;
}

export function createExchange(parts: Required<SyncParts>): Exchange {
  const { book, household, confirm, world } = parts;
  const { db } = book;
  let stopping: AbortSignal | undefined;
  /** Asked at the last moment: whose cookie it would go out under may have changed while the disk was read (F18). */
  async function send<T>(...question: Parameters<Request>): Promise<Outcome<T>> {
    return stopping?.aborted ? STOPPED : parts.send<T>(...question);
  }
  const rounds = createRounds(book, household, send, () => world.now());
  const bootstrap = createBootstrap(book, household, send);
  const agreement = createAgreement({ ...parts, send });
  let confirmed = false;
  let device: "known" | "doubted" | "renewed" = "known";
  let renewedAt = 0;

  async function attempt(stopped: AbortSignal): Promise<Failure | undefined> {
    stopping = stopped;
    if (!confirmed) {
      const who = await confirm();
      if (who === "other") return SIGNED_OUT;
      confirmed = who === "same";
    }
    rounds.begin();
    agreement.begin();
    const failed = (await registered()) ?? (await untilQuiet(stopped));
    return failed === STOPPED ? undefined : failed;
  }

  async function untilQuiet(stopped: AbortSignal): Promise<Failure | undefined> {
    for (let idle = 0; !stopped.aborted; ) {
      const whole = await wholePage();
      if (whole !== "rounds") {
        if (whole) return whole;
        continue;
      }
      const ended = await rounds.next();
      if (ended.kind === "later") return doubted(ended.failure);
      if (ended.kind === "done") {
        device = "known";
        if (ended.quiet) {
          const next = await agreement.after(ended.answer);
          if (next !== "again") return next ?? rounds.tooOld();
        } else if (muchAhead(ended.answer, ended.asked)) await bootstrap.begin();
      }
      idle = ended.kind === "done" && moved(ended.answer) ? 0 : idle + 1;
      if (idle > IDLE_ROUNDS) return STUCK;
    }
    return undefined;
  }

  /** A page of the whole book where that is under way; what waits goes out first. */
  async function wholePage(): Promise<Failure | undefined | "rounds"> {
    if (!(await bootstrap.begun())) return "rounds";
    if (!rounds.tooOld() && (await anyUnjudged(db))) return "rounds";
    return bootstrap.page();
  }

  /**
   * 404: a server that does not know this device (set up anew, or it was signed out there) gives out another id, once
   * an hour;
   * or the household is closed to this person, or another person signed in meanwhile, which is asked first.
   */
  async function doubted(refusal: Failure): Promise<Failure> {
    if (refusal.status === 401 || refusal.status === 404) confirmed = false;
    if (refusal.status !== 404) return refusal;
    const lately = Math.abs(world.now() - renewedAt) < RENEW_EVERY_MS;
    if (device !== "renewed" || !lately) device = "doubted";
    return { ...refusal, message: CLOSED };
  }

  /**
   * The device id comes from the server at the first meeting (S5). The old one stays until there is a new: under it
   * the entries of a former member are still handed over (S22).
   */
  async function registered(): Promise<Failure | undefined> {
    const known = (await readState(db)).device !== undefined;
    if (known && (device !== "doubted" || !confirmed)) return undefined;
    const outcome = await send<{ device: string }>("POST", `households/${household}/devices`, {
      name: phoneName(),
    });
    if (outcome.ok) {
      await setDevice(db, outcome.value.device);
      device = known ? "renewed" : "known";
      renewedAt = world.now();
      return undefined;
    }
    if (outcome.status !== 404) return outcome;
    return known ? undefined : { ...outcome, message: CLOSED };
  }

  return { attempt };
}

/** What the household sees in its list of phones. */
function phoneName(): string {
  const agent = globalThis.navigator?.userAgent ?? "";
  const known = ["iPhone", "iPad", "Android", "Windows", "Macintosh", "Linux"].find((name) =>
    agent.includes(name),
  );
  return known === "Android" ? "Android phone" : known === "Macintosh" ? "Mac" : (known ?? "Phone");
}
