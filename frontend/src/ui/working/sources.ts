/** Who published what: read from the phone when the first working is opened. */
import { signal } from "@preact/signals";

interface Source {
  title?: string | null;
  institution?: string | null;
  number?: string | null;
  year?: number | string | null;
}

const known = signal<Record<string, Source> | undefined>(undefined);
let asked = false;

/** Follows the list of sources; the keys themselves stand until it is read. */
export function useSources(): Record<string, Source> {
  if (!asked) {
    asked = true;
    Promise.all([
      import("@fixtures/published/sources.json"),
      import("@fixtures/published/engine_sources.json"),
    ]).then(
      ([tables, engine]) => {
        known.value = { ...tables.default.sources, ...engine.default.sources } as Record<string, Source>;
      },
      () => {
        asked = false;
      },
    );
  }
  return known.value ?? {};
}

const PLAIN: Record<string, string> = {
  definition: "what the words mean",
  computed: "worked out for this book",
};

/** "CLEMSON-1220" → "Clemson Cooperative Extension HGIC, Measuring the Area of a Home Lawn, HGIC 1220". */
export function saySource(key: string, sources: Record<string, Source>): string {
  const found = sources[key];
  if (!found) return PLAIN[key] ?? key;
  const { institution, title, number, year } = found;
  return [institution, title, number, year].filter(Boolean).join(", ");
}
