/** JSON with sorted keys and no spaces, so that equal content gives equal text. */

/** Canonical JSON text of a JSON-able value. Undefined members are left out, as JSON does. */
export function canonical(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map((item) => canonical(item ?? null)).join(",")}]`;
  if (typeof value === "object" && value !== null) {
    const parts = Object.entries(value)
      .filter(([, member]) => member !== undefined)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, member]) => `${JSON.stringify(key)}:${canonical(member)}`);
    return `{${parts.join(",")}}`;
  }
  return JSON.stringify(value ?? null);
}

/**
 * A plain copy of what a caller hands in, or an error where JSON would silently change it
 * (NaN and the infinities become null): nothing a person entered is changed on the way.
 */
export function plainCopy<V>(value: V, path = "value"): V {
  if (typeof value === "number" && !Number.isFinite(value)) throw new TypeError(`${path} is not a number`);
  if (typeof value === "function" || typeof value === "bigint" || typeof value === "symbol") {
    throw new TypeError(`${path} cannot be stored`);
  }
  if (Array.isArray(value)) return value.map((item, at) => plainCopy(item ?? null, `${path}[${at}]`)) as V;
  if (typeof value !== "object" || value === null) return value;
  const copy: Record<string, unknown> = {};
  for (const [key, member] of Object.entries(value)) {
    if (member !== undefined) copy[key] = plainCopy(member, `${path}.${key}`);
  }
  return copy as V;
}
