/**
 * The form of a JPEG file (ITU-T T.81, annex B), so far as to take out of it everything beside the picture: where it
 * was taken, the camera's number, words. Drawing a picture anew leaves the camera's notes behind, but browsers put
 * notes of their own in; so what a picture is kept and sent as is made bare here, and the server looks again.
 */

const SOI = 0xd8;
const EOI = 0xd9;
const SOS = 0xda;
/** JFIF, colour profile, the colours' coding: what showing the picture needs. Frames and tables besides. */
const NEEDED = new Set([0xc0, 0xc1, 0xc2, 0xc4, 0xdb, 0xdd, SOS]);
const APP = new Map([
  [0xe0, "JFIF\0"],
  [0xe2, "ICC_PROFILE\0"],
  [0xee, "Adobe"],
]);
const BARE_JFIF_BYTES = 16;

/** The picture and nothing beside it. Raises TypeError for what is not a whole JPEG file. */
export function bare(bytes: Uint8Array): Uint8Array<ArrayBuffer> {
  if (bytes[0] !== 0xff || bytes[1] !== SOI) throw new TypeError("This is not a JPEG picture.");
  const parts = [bytes.subarray(0, 2)];
  let at = 2;
  while (bytes[at + 1] !== EOI) {
    const end = endOf(bytes, at);
    if (belongs(bytes, at, end)) parts.push(bytes.subarray(at, end));
    at = end;
  }
  parts.push(bytes.subarray(at, at + 2));
  return joined(parts);
}

/** Where the segment at `at` ends, the coded data of a scan included. */
function endOf(bytes: Uint8Array, at: number): number {
  if (bytes[at] !== 0xff) throw new TypeError("This JPEG picture is damaged.");
  const length = ((bytes[at + 2] ?? 0) << 8) | (bytes[at + 3] ?? 0);
  const end = at + 2 + length;
  if (length < 2 || end + 2 > bytes.length) throw new TypeError("This JPEG picture breaks off.");
  return bytes[at + 1] === SOS ? endOfScan(bytes, end) : end;
}

/** In coded data 0xFF is followed by 0 or by the number of a restart; anything else ends it. */
function endOfScan(bytes: Uint8Array, from: number): number {
  for (let at = bytes.indexOf(0xff, from); at >= 0; at = bytes.indexOf(0xff, at + 1)) {
    const next = bytes[at + 1];
    if (next === undefined) break;
    if (next !== 0 && next !== 0xff && (next < 0xd0 || next > 0xd7)) return at;
  }
  throw new TypeError("This JPEG picture breaks off.");
}

function belongs(bytes: Uint8Array, at: number, end: number): boolean {
  const marker = bytes[at + 1] ?? 0;
  const name = APP.get(marker);
  if (name === undefined) return NEEDED.has(marker);
  const said = String.fromCharCode(...bytes.subarray(at + 4, at + 4 + name.length));
  return said === name && (marker !== 0xe0 || end - at - 2 === BARE_JFIF_BYTES);
}

function joined(parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
