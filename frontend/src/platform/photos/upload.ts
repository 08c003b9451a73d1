/** Sending one picture: from where the server says it stands, chunk by chunk, until it has it whole (F45). */
import type { BookDb } from "../store/db";
import type { Verdict } from "../store/types";
import type { Failure, Outcome } from "../sync/http";
import { nameOf } from "./take";
import { CHUNK_BYTES, type PhotoWire, type UploadStanding } from "./wire";

/** Answers in a row that bring nothing further: then both sides misunderstand each other, and it is tried later. */
const MOST_IDLE = 3;

const STUCK: Failure = {
  ok: false,
  status: 500,
  code: "stuck",
  message: "The server keeps asking for the same part of a photo again. The photo stays on this phone.",
};
const DAMAGED: Verdict = {
  code: "damaged_here",
  message: "The picture was damaged on this phone: its bytes are no longer those that were saved.",
};

/** Undefined once the picture needs no more sending; otherwise why it is tried later. */
export async function sendPicture(
  db: BookDb,
  wire: PhotoWire,
  name: string,
  stopped: AbortSignal,
): Promise<Failure | undefined> {
  const row = await db.photos.get(name);
  if (row?.state !== "waiting") return undefined;
  let stands = await wire.standing(name, row.size);
  let idle = 0;
  while (stands.ok && !stands.value.complete) {
    if (stopped.aborted || idle > MOST_IDLE) return STUCK;
    // More than there is: what another phone began under this name with another length. The server sorts it out.
    const first = stands.value.have_bytes < row.size ? stands.value.have_bytes : 0;
    const chunk = row.bytes.slice(first, first + CHUNK_BYTES);
    const answer = await wire.send(name, chunk, first, row.size);
    if (!answer.ok && answer.status === 422) return refused(db, name, row.bytes, answer);
    idle = further(answer, first) ? 0 : idle + 1;
    stands = !answer.ok && answer.status === 409 ? await wire.standing(name, row.size) : answer;
  }
  if (!stands.ok) return stands;
  await db.photos.update(name, { state: "sent", have: row.size });
  return undefined;
}

function further(answer: Outcome<UploadStanding>, first: number): boolean {
  return answer.ok && (answer.value.complete || answer.value.have_bytes > first);
}

/**
 * The server does not keep the picture. One that was mangled on the way is sent again later; anything else is the
 * picture's own fault, which sending again would not mend: it stays here, and says why (P6, P8, P9).
 */
async function refused(
  db: BookDb,
  name: string,
  bytes: ArrayBuffer,
  failure: Failure,
): Promise<Failure | undefined> {
  const mangled = failure.code === "wrong_hash";
  if (mangled && (await nameOf(new Uint8Array(bytes))) === name) return failure;
  const why = mangled ? DAMAGED : { code: failure.code, message: failure.message };
  await db.photos.update(name, { state: "refused", why });
  return undefined;
}
