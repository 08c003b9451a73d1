/**
 * The queue of pictures, apart from that of entries: neither holds the other up (P8). One tab sends, one picture at a
 * time, oldest first; what stands in the way means later, and later comes for as long as the app is open (S17). How it
 * stands is in the store, so that a killed app goes on where it was.
 */
import { liveQuery } from "dexie";
import type { Book } from "../store/book";
import type { PhotoState } from "../store/db";
import { picturesIn } from "../store/pictures";
import { AFTER_SAVE_MS, MOST_RETRY_AFTER_MS, pauseMs } from "../sync/backoff";
import type { Failure } from "../sync/http";
import { createTurns, type Turn, type Turns } from "../sync/turns";
import { browserWorld, type World } from "../sync/world";
import { letGo, sendAgainWhatIsMissing } from "./keeping";
import { sendPicture } from "./upload";
import { type PhotoWire, photoWire } from "./wire";

export type PhotoQueue = Turns;

export interface PhotoQueueParts {
  book: Book;
  household: string;
  /** Whose cookie the phone holds; "other": send nothing (F18). */
  confirm: () => Promise<"same" | "other" | "unknown">;
  wire?: PhotoWire;
  world?: World;
}

/** Refusals of one picture or of one answer; anything else stands in the way of all. */
const OF_ONE = new Set([400, 409, 413, 415, 422]);

const NOBODY: Failure = { ok: false, status: 401, code: "other_person", message: "Sign in to send photos." };

export function createPhotoQueue(given: PhotoQueueParts): PhotoQueue {
  const parts = { wire: photoWire(given.household), world: browserWorld, ...given };
  const { book, world, wire } = parts;
  let confirmed = false;

  /** Resolves with the pause until the next try. */
  async function oneTry(signal: AbortSignal): Promise<number> {
    const kept = await readQueue(book);
    const wait = kept.nextAt - world.now();
    if (wait > 0 && wait <= MOST_RETRY_AFTER_MS) return wait;
    return noted(book, world, await attempt(signal));
  }

  async function attempt(signal: AbortSignal): Promise<Failure | undefined> {
    const waiting = await picturesIn(book.db, "waiting");
    const sent = await picturesIn(book.db, "sent");
    if (waiting.length + sent.length === 0) return undefined;
    if (!confirmed) {
      const who = await parts.confirm();
      if (who === "other") return NOBODY;
      confirmed = who === "same";
    }
    const failure = (await sendAgainWhatIsMissing(book.db, wire)) ?? (await sendAll(signal));
    if (failure?.status === 401) confirmed = false;
    return failure ?? letGo(book.db, wire, world.now());
  }

  /** One after the other; a picture that does not get through does not hold up the next (P8). */
  async function sendAll(signal: AbortSignal): Promise<Failure | undefined> {
    let trouble: Failure | undefined;
    for (const name of await picturesIn(book.db, "waiting")) {
      if (signal.aborted) return trouble;
      const failure = await sendPicture(book.db, wire, name, signal);
      trouble = failure ?? trouble;
      if (failure && !OF_ONE.has(failure.status)) return failure;
    }
    return trouble;
  }

  // A moment after a photo was saved, so that its entry goes first.
  const begin = ({ sooner }: Turn) => [followWaiting(book, () => sooner(AFTER_SAVE_MS))];
  return createTurns(world, `photos:${book.name}`, oneTry, begin);
}

/** Calls when a picture more waits, saved by whichever tab. */
function followWaiting(book: Book, saved: () => void): () => void {
  let before = 0;
  const count = () => book.db.photos.where("state").equals("waiting").count();
  const subscription = liveQuery(count).subscribe((now) => {
    if (now > before) saved();
    before = now;
  });
  return () => subscription.unsubscribe();
}

async function readQueue({ db }: Book): Promise<PhotoState> {
  const kept = (await db.meta.get("photos")) as PhotoState | undefined;
  return kept ?? { key: "photos", failures: 0, nextAt: 0 };
}

/** Writes down how the try ended; returns the pause until the next. */
async function noted(book: Book, world: World, failure: Failure | undefined): Promise<number> {
  const { trouble: _trouble, ...kept } = await readQueue(book);
  if (!failure) {
    if (kept.failures > 0) await book.db.meta.put({ ...kept, failures: 0, nextAt: 0 });
    return pauseMs(Number.POSITIVE_INFINITY, world.chance());
  }
  const failures = kept.failures + 1;
  const asked = Math.min((failure.retryAfterS ?? 0) * 1000, MOST_RETRY_AFTER_MS);
  const nextAt = asked > 0 ? world.now() + asked : 0;
  const trouble = failure.status >= 402 ? { trouble: failure.message } : {};
  await book.db.meta.put({ ...kept, failures, nextAt, ...trouble });
  return Math.max(asked, pauseMs(failures, world.chance()));
}
