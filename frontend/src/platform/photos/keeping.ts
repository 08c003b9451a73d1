/** How long full pictures stay on a phone: always until the server has them whole, then as long as there is room. */
import type { BookDb, PhotoState } from "../store/db";
import { freeSent, picturesIn } from "../store/pictures";
import { readState } from "../store/state";
import type { Failure } from "../sync/http";
import type { PhotoWire } from "./wire";

const KEPT_MS = 30 * 24 * 3600_000;
/** As many names as the server answers for at once. */
const MOST_NAMES = 500;
/** Above this share of what the browser allows, room is short; then pictures go until it is below the other. */
const SHORT_SHARE = 0.8;
const ENOUGH_SHARE = 0.7;

/**
 * A server restored from a backup has another epoch and may lack pictures it once had (S11): those that are still here
 * wait to be sent again. Asked once for each epoch.
 */
export async function sendAgainWhatIsMissing(db: BookDb, wire: PhotoWire): Promise<Failure | undefined> {
  const { epoch } = await readState(db);
  const kept = (await db.meta.get("photos")) as PhotoState | undefined;
  if (!epoch || kept?.epoch === epoch) return undefined;
  const failure = await restoredNames(db, wire, await picturesIn(db, "sent"));
  if (failure) return failure;
  await db.transaction("rw", db.meta, async () => {
    const now = (await db.meta.get("photos")) as PhotoState | undefined;
    await db.meta.put({ ...(now ?? { key: "photos", failures: 0, nextAt: 0 }), epoch });
  });
  return undefined;
}

/** Lets go of what the server has: after 30 days, or oldest first when room is short. It is asked once more before. */
export async function letGo(
  db: BookDb,
  wire: PhotoWire,
  nowMs: number,
  estimate: () => Promise<StorageEstimate> = browserEstimate,
): Promise<Failure | undefined> {
  const old = await picturesIn(db, "sent", new Date(nowMs - KEPT_MS).toISOString());
  const short = shortBytes(await estimate());
  const going = short > 0 ? await picturesIn(db, "sent") : old;
  if (going.length === 0) return undefined;
  const failure = await restoredNames(db, wire, going);
  if (failure) return failure;
  await freeSent(db, old, Number.POSITIVE_INFINITY);
  if (short > 0) await freeSent(db, await picturesIn(db, "sent"), short);
  return undefined;
}

/** Of these sent ones, those the server lacks wait again. */
async function restoredNames(
  db: BookDb,
  wire: PhotoWire,
  names: readonly string[],
): Promise<Failure | undefined> {
  for (let at = 0; at < names.length; at += MOST_NAMES) {
    const answer = await wire.missing(names.slice(at, at + MOST_NAMES));
    if (!answer.ok) return answer;
    if (!Array.isArray(answer.value?.missing)) return ODD;
    for (const name of answer.value.missing) await db.photos.update(name, { state: "waiting", have: 0 });
  }
  return undefined;
}

const ODD: Failure = {
  ok: false,
  status: 0,
  code: "odd_answer",
  message: "The server's answer makes no sense.",
};

function shortBytes({ usage = 0, quota = 0 }: StorageEstimate): number {
  return quota > 0 && usage > quota * SHORT_SHARE ? usage - quota * ENOUGH_SHARE : 0;
}

async function browserEstimate(): Promise<StorageEstimate> {
  try {
    return (await globalThis.navigator?.storage?.estimate?.()) ?? {};
  } catch {
    return {};
  }
}
