/** The published heights of cut for the grasses of home lawns, as the fixture prints them. */
import table from "@fixtures/published/grasses.json";
import sources from "@fixtures/published/sources.json";

export interface CutRow {
  low_mm: number;
  high_mm: number;
  home_lawn: boolean;
  /** Whose lawns it was printed for; on every home-lawn row. */
  where?: string;
  remark?: string;
  sources: string[];
}

export interface Grass {
  key: string;
  name: string;
  season: string;
  /** What the southern hemisphere calls it: words to find it by. */
  also?: string[];
  /** The range printed for home lawns; null where none was found, or where places do not share one. */
  cut_mm: { low: number; high: number } | null;
  cut_rows: CutRow[];
}

export const GRASSES = table.grasses as unknown as readonly Grass[];

export function grassOf(key: string): Grass | undefined {
  return GRASSES.find((grass) => grass.key === key);
}

/** Every grass to choose from; the southern names stand after them, so that typing one finds its grass. */
export const GRASS_CHOICES: readonly { value: string; label: string }[] = [
  ...GRASSES.map(({ key, name, season }) => ({ value: key, label: `${name} (${season} season)` })),
  ...GRASSES.flatMap(({ key, name, also = [] }) =>
    also.map((word) => ({ value: key, label: `${word[0]?.toUpperCase()}${word.slice(1)}: ${name}` })),
  ),
];

/** What is printed for home lawns of a grass: its range or its places', and who printed each. */
export function printedCut(grass: Grass): { range: Grass["cut_mm"]; rows: CutRow[] } {
  return { range: grass.cut_mm, rows: grass.cut_rows.filter(({ home_lawn }) => home_lawn) };
}

/** A grass as a person reads it; a key this build does not know is shown as it stands. */
export function sayGrass(key: string): string {
  return grassOf(key)?.name ?? key.replaceAll("_", " ");
}

/** Who printed a value: institution and title, or the key where the list does not have it. */
export function saySource(key: string): string {
  const source = (sources.sources as Record<string, { title?: string; institution?: string }>)[key];
  return source ? [source.institution, source.title].filter(Boolean).join(", ") : key;
}
