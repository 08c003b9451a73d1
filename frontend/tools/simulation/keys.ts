/** The order of keys in IndexedDB (W3C, Indexed Database API 3.0, section 2.4 "Keys"): number, text, list. */

const rank = (key: unknown): number => (typeof key === "number" ? 0 : typeof key === "string" ? 1 : 2);

/** Below 0 where a stands before b, above 0 after it, 0 where they are equal. */
export function compare(a: unknown, b: unknown): number {
  const ranks = rank(a) - rank(b);
  if (ranks !== 0) return ranks;
  if (Array.isArray(a) && Array.isArray(b)) return compareLists(a, b);
  return (a as string) < (b as string) ? -1 : (a as string) > (b as string) ? 1 : 0;
}

function compareLists(a: unknown[], b: unknown[]): number {
  for (let at = 0; at < Math.min(a.length, b.length); at++) {
    const order = compare(a[at], b[at]);
    if (order !== 0) return order;
  }
  return a.length - b.length;
}

/** What an index reads from a row: "name", or a list of several for "[t+rev]". Undefined: not in the index. */
export function keyIn(row: any, path: string): unknown {
  if (!path.startsWith("[")) return path.split(".").reduce((value, name) => value?.[name], row);
  const parts = path
    .slice(1, -1)
    .split("+")
    .map((part) => row[part]);
  return parts.includes(undefined) ? undefined : parts;
}

/** Whether copies are frozen, which takes as long again as making them. */
export const frozen = { on: false };

/** A deep copy: what is stored is cut off from what was handed in. */
export function kept<V>(value: V): V {
  if (typeof value !== "object" || value === null) return value;
  if (value instanceof ArrayBuffer) return value.slice(0) as V;
  if (Array.isArray(value)) return ended(value.map(kept)) as V;
  const copy: Record<string, unknown> = {};
  for (const name in value) copy[name] = kept(value[name]);
  return ended(copy) as V;
}

const ended = <V>(copy: V): V => (frozen.on ? Object.freeze(copy) : copy);
