/** Counts in words. */
export function countOf(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`;
}

/** "3 entries and 1 photo"; blank when there is neither. */
export function sayCount(entries: number, photos: number): string {
  return [entries && countOf(entries, "entry", "entries"), photos && countOf(photos, "photo")]
    .filter(Boolean)
    .join(" and ");
}
