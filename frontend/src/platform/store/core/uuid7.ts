/** UUIDv7 (RFC 9562, section 5.7): 48 bits of milliseconds, version, 74 random bits. */

/** The id for a moment (ms since 1970) and ten random bytes. */
export function uuid7(ms: number, random: Uint8Array): string {
  const bytes = new Uint8Array(16);
  const high = Math.floor(ms / 0x10000);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, high);
  view.setUint16(4, ms - high * 0x10000);
  bytes.set(random.subarray(0, 10), 6);
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x70;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

/** A new id from this phone's clock and the browser's random source. */
export function newId(): string {
  return uuid7(Date.now(), crypto.getRandomValues(new Uint8Array(10)));
}

/** Random lower-case hex digits. */
export function randomHex(digits: number): string {
  const bytes = crypto.getRandomValues(new Uint8Array(Math.ceil(digits / 2)));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0"))
    .join("")
    .slice(0, digits);
}
