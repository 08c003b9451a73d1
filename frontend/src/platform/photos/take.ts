/** From a file of the camera or the roll to a photo as it is kept: small, upright, bare, named by its content. */
import { isoMoment } from "../../format";
import { base64 } from "../store/core/base64";
import { sha256OfBytes } from "../store/core/sha256";
import type { Picture } from "../store/types";
import { withPicture } from "./draw";
import { FULL, made, THUMB } from "./shrink";

export interface Taken extends Picture {
  width: number;
  height: number;
  /** JPEG of at most 8 kB, in base64. */
  thumb: string;
  /** When, as the file says; undefined where it does not. */
  takenAt: string | undefined;
}

export type Take = (file: Blob) => Promise<Taken>;

/** Raises an error where the browser cannot read the file as a picture. */
export const take: Take = (file) =>
  withPicture(file, async (picture) => {
    const full = await made(picture, FULL);
    const thumb = await made(picture, THUMB);
    return {
      sha256: await nameOf(full.bytes),
      bytes: full.bytes.buffer,
      width: full.width,
      height: full.height,
      thumb: base64(thumb.bytes),
      takenAt: timeOf(file),
    };
  });

/** SHA-256 of bytes: the browser's where the page is on a secure origin, else ours. */
export async function nameOf(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const subtle = globalThis.crypto?.subtle;
  if (!subtle) return sha256OfBytes(bytes);
  const hash = new Uint8Array(await subtle.digest("SHA-256", bytes));
  return Array.from(hash, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** A file's own moment; the camera's notes, which would know better, are not read. */
function timeOf(file: Blob): string | undefined {
  const at = file instanceof File ? file.lastModified : 0;
  return at > 0 ? isoMoment(new Date(at)) : undefined;
}
