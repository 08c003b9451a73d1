/**
 * SHA-256 (FIPS 180-4), synchronous. The browser's own is asynchronous, and nothing but Dexie may
 * be awaited inside a transaction (S14); it is also missing where the page is not on a secure origin.
 */

/** The first n primes: the standard draws its constants from their roots. */
function primes(count: number): number[] {
  const found: number[] = [];
  for (let n = 2; found.length < count; n++) if (found.every((prime) => n % prime)) found.push(n);
  return found;
}

/** First 32 bits of the fraction of a root. Math.cbrt and sqrt carry 53 bits, enough for these. */
function fraction(root: number): number {
  return Math.floor((root - Math.floor(root)) * 2 ** 32);
}

const K = new Uint32Array(primes(64).map((prime) => fraction(Math.cbrt(prime))));
const START = new Uint32Array(primes(8).map((prime) => fraction(Math.sqrt(prime))));
const BLOCK = 64;

function padded(message: Uint8Array): DataView {
  const length = Math.ceil((message.length + 9) / BLOCK) * BLOCK;
  const bytes = new Uint8Array(length);
  bytes.set(message);
  bytes[message.length] = 0x80;
  const view = new DataView(bytes.buffer);
  view.setUint32(length - 8, Math.floor((message.length * 8) / 2 ** 32));
  view.setUint32(length - 4, message.length * 8);
  return view;
}

const turn = (word: number, by: number): number => (word >>> by) | (word << (32 - by));

function schedule(view: DataView, start: number): Uint32Array {
  const w = new Uint32Array(64);
  for (let i = 0; i < 16; i++) w[i] = view.getUint32(start + i * 4);
  for (let i = 16; i < 64; i++) {
    const a = w[i - 15] as number;
    const b = w[i - 2] as number;
    const low = turn(a, 7) ^ turn(a, 18) ^ (a >>> 3);
    const high = turn(b, 17) ^ turn(b, 19) ^ (b >>> 10);
    w[i] = (w[i - 16] as number) + low + (w[i - 7] as number) + high;
  }
  return w;
}

function compress(state: Uint32Array, w: Uint32Array): void {
  let [a, b, c, d, e, f, g, h] = state as unknown as number[] & { length: 8 } as any;
  for (let i = 0; i < 64; i++) {
    const choose = (e & f) ^ (~e & g);
    const first =
      (h + (turn(e, 6) ^ turn(e, 11) ^ turn(e, 25)) + choose + (K[i] as number) + (w[i] as number)) | 0;
    const most = (a & b) ^ (a & c) ^ (b & c);
    const second = ((turn(a, 2) ^ turn(a, 13) ^ turn(a, 22)) + most) | 0;
    [a, b, c, d, e, f, g, h] = [(first + second) | 0, a, b, c, (d + first) | 0, e, f, g];
  }
  [a, b, c, d, e, f, g, h].forEach((word, i) => {
    state[i] = (state[i] as number) + word;
  });
}

/** SHA-256 of a text's UTF-8 bytes, as 64 lower-case hex digits. */
export function sha256Hex(text: string): string {
  return sha256OfBytes(new TextEncoder().encode(text));
}

/** SHA-256 of bytes, as 64 lower-case hex digits. */
export function sha256OfBytes(bytes: Uint8Array): string {
  const view = padded(bytes);
  const state = START.slice();
  for (let start = 0; start < view.byteLength; start += BLOCK) compress(state, schedule(view, start));
  return Array.from(state, (word) => word.toString(16).padStart(8, "0")).join("");
}
