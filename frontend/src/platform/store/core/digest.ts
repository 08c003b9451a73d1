/**
 * Household digest (P4): two 32-bit FNV-1a hashes of "t|id|seq", each summed modulo 2^32 over all
 * current records. A sum, so that one record's change is one subtraction and one addition.
 * The server keeps the same; fixtures/sync/digest.json holds the shared vectors.
 */

/** Both sums, first and second. */
export type Sums = readonly [number, number];

export const NO_SUMS: Sums = [0, 0];

const FIRST = 2166136261;
const SECOND = (2166136261 ^ 0x5bd1e995) >>> 0;
const PRIME = 16777619;
const utf8 = new TextEncoder();

/** 32-bit FNV-1a (G. Fowler, L. C. Noll, K.-P. Vo) from a given offset basis. */
export function fnv1a(bytes: Uint8Array, offset: number): number {
  let hash = offset;
  for (const byte of bytes) hash = Math.imul(hash ^ byte, PRIME);
  return hash >>> 0;
}

export function recordSums(t: string, id: string, seq: number): Sums {
  const bytes = utf8.encode(`${t}|${id}|${seq}`);
  return [fnv1a(bytes, FIRST), fnv1a(bytes, SECOND)];
}

export function addSums(a: Sums, b: Sums): Sums {
  return [(a[0] + b[0]) >>> 0, (a[1] + b[1]) >>> 0];
}

export function subtractSums(a: Sums, b: Sums): Sums {
  return [(a[0] - b[0]) >>> 0, (a[1] - b[1]) >>> 0];
}

/** 16 hex digits, as the server writes it. */
export function digestText(sums: Sums): string {
  return sums.map((sum) => sum.toString(16).padStart(8, "0")).join("");
}

/** The 8 hex digits by which a record is looked for when a book is repaired. */
export function bucketOf(t: string, id: string): string {
  return fnv1a(utf8.encode(`${t}|${id}`), FIRST)
    .toString(16)
    .padStart(8, "0");
}

/** The digest of a whole set of records, computed afresh. */
export function sumAll(records: Iterable<{ t: string; id: string; seq: number }>): Sums {
  let sums = NO_SUMS;
  for (const { t, id, seq } of records) sums = addSums(sums, recordSums(t, id, seq));
  return sums;
}
