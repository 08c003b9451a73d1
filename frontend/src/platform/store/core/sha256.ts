/**
 * SHA-256 (FIPS 180-4), synchronous. The browser's own is asynchronous, and nothing but Dexie may
 * be awaited inside a transaction (S14); it is also missing where the page is not on a secure origin.
 */
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex } from "@noble/hashes/utils.js";

/** SHA-256 of a text's UTF-8 bytes, as 64 lower-case hex digits. */
export function sha256Hex(text: string): string {
  return sha256OfBytes(new TextEncoder().encode(text));
}

/** SHA-256 of bytes, as 64 lower-case hex digits. */
export function sha256OfBytes(bytes: Uint8Array): string {
  return bytesToHex(sha256(bytes));
}
