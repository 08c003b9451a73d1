/** The photo requests: questions in JSON, pictures as bytes. Like all others they never throw and follow no redirect. */
import type { components } from "../api";
import { noAnswer, type Outcome, read, request, WIRE, type Wire } from "../sync/http";

type Schemas = components["schemas"];
export type UploadStanding = Schemas["UploadOut"];

/** A chunk takes its time on a poor line; the same again is asked for after a cut, so it is not too large either. */
export const CHUNK_BYTES = 256 * 1024;
const SLOW: Wire = { ...WIRE, timeoutMs: 90_000 };

export interface PhotoWire {
  missing(names: readonly string[]): Promise<Outcome<Schemas["MissingOut"]>>;
  standing(name: string, total: number): Promise<Outcome<UploadStanding>>;
  send(name: string, chunk: ArrayBuffer, first: number, total: number): Promise<Outcome<UploadStanding>>;
  picture(name: string): Promise<Outcome<ArrayBuffer>>;
}

export function photoWire(household: string, wire: Wire = SLOW): PhotoWire {
  const path = (end: string) => `households/${household}/photos/${end}`;
  return {
    missing: (names) => request("POST", path("missing"), { sha256: names }, wire),
    standing: (name, total) => request("GET", path(`${name}/upload?total=${total}`), undefined, wire),
    send: (name, chunk, first, total) =>
      asked(wire, path(name), read<UploadStanding>, {
        method: "PUT",
        body: chunk,
        headers: {
          "Content-Type": "application/octet-stream",
          "Content-Range": `bytes ${first}-${first + chunk.byteLength - 1}/${total}`,
        },
      }),
    picture: (name) => asked(wire, path(name), readPicture, { method: "GET" }),
  };
}

async function asked<V>(
  wire: Wire,
  path: string,
  reading: (response: Response) => Promise<Outcome<V>>,
  init: RequestInit,
): Promise<Outcome<V>> {
  try {
    const response = await wire.fetch(`/api/v1/${path}`, {
      ...init,
      credentials: "same-origin",
      // The book keeps pictures itself; a second copy in the browser's cache would outlive a sign-out.
      cache: "no-store",
      redirect: "manual",
      signal: AbortSignal.timeout(wire.timeoutMs),
    });
    return await reading(response);
  } catch {
    return noAnswer();
  }
}

async function readPicture(response: Response): Promise<Outcome<ArrayBuffer>> {
  const isOne = response.status === 200 && response.headers.get("Content-Type") === "image/jpeg";
  if (isOne) return { ok: true, status: 200, value: await response.arrayBuffer() };
  return read(response);
}
