/**
 * Small things read before the first paint: who is signed in, the theme. Local storage may be
 * refused (private windows, a full phone); the app then works on and merely forgets them.
 */

export function recall(key: string): unknown {
  try {
    const text = localStorage.getItem(key);
    return text === null ? undefined : JSON.parse(text);
  } catch {
    return undefined;
  }
}

/** Keeps a JSON-able value; undefined forgets it. Returns whether it was kept. */
export function remember(key: string, value: unknown): boolean {
  try {
    if (value === undefined) localStorage.removeItem(key);
    else localStorage.setItem(key, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}
