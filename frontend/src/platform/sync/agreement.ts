/**
 * At quiet this phone's book and the server's must agree (P4). Where they do not, the records that differ are
 * replaced; if that did not help, everything is fetched again; if that did not, the person is told.
 */

import { digestText } from "../store/core/digest";
import type { SyncAnswer } from "../store/incoming/answers";
import { countAgrees, trueDigest } from "../store/incoming/mend";
import { startRepull } from "../store/incoming/whole";
import { readState, readSync } from "../store/state";
import type { Failure } from "./http";
import type { SyncParts } from "./index";
import { repair } from "./repair";

/** A full re-pull that did not help is not tried again sooner. */
const REPULL_EVERY_MS = 60 * 60_000;
/** What is really in the table is summed up this often, and whenever a row is seen to be gone. */
const VERIFY_EVERY_MS = 24 * 60 * 60_000;

export interface Agreement {
  /** A new try. */
  begin(): void;
  /** After a quiet round: "again" when something was mended and the server is to be asked once more. */
  after(answer: SyncAnswer): Promise<Failure | undefined | "again">;
}

export function createAgreement({ book, household, send, world }: Required<SyncParts>): Agreement {
  const { db } = book;
  let verified = false;
  let repaired = false;

  async function after(answer: SyncAnswer): Promise<Failure | undefined | "again"> {
    if (!answer.digest || answer.cursor !== answer.head || (await db.outbox.count()) > 0) return undefined;
    if ((await readState(db)).cursor !== answer.cursor) return undefined;
    if (await agrees(answer.digest)) return noted(false);
    return mended();
  }

  async function agrees(digest: string): Promise<boolean> {
    if (!verified && (await verifyNow())) await summedUp();
    verified = true;
    const kept = digestText((await readState(db)).digest) === digest;
    // The kept sum may be what is wrong: only the table itself says that records differ.
    return kept || (await summedUp()) === digest;
  }

  async function verifyNow(): Promise<boolean> {
    return !(await countAgrees(db)) || !within((await readSync(db)).verifiedAt, VERIFY_EVERY_MS);
  }

  async function summedUp(): Promise<string> {
    const digest = await trueDigest(db);
    await db.meta.put({ ...(await readSync(db)), verifiedAt: world.now() });
    return digest;
  }

  async function mended(): Promise<Failure | undefined | "again"> {
    if (!repaired) {
      repaired = true;
      const done = await repair(book, household, send);
      if (done.failure) return done.failure;
      if (done.replaced > 0) return "again";
    }
    await noted(true);
    if (within((await readSync(db)).repulledAt, REPULL_EVERY_MS)) return undefined;
    await db.meta.put({ ...(await readSync(db)), repulledAt: world.now() });
    await startRepull(db);
    return "again";
  }

  /** Whether the books are known to differ, for the person to read until they no longer do. */
  async function noted(repulling: boolean): Promise<undefined> {
    const kept = await readSync(db);
    if ((kept.repulling ?? false) !== repulling) await db.meta.put({ ...kept, repulling });
  }

  /** A moment ahead of the clock is none: the clock was set back since (F26). */
  function within(moment: number | undefined, ms: number): boolean {
    const since = moment === undefined ? Number.POSITIVE_INFINITY : world.now() - moment;
    return since >= 0 && since < ms;
  }

  return {
    begin() {
      repaired = false;
    },
    after,
  };
}
