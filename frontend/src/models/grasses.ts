/** The published heights of cut for the grasses of home lawns, as the fixture prints them. */
import table from "@fixtures/published/grasses.json";
import sources from "@fixtures/published/sources.json";

export interface CutRow {
  low_mm: number;
  high_mm: number;
  home_lawn: boolean;
  remark?: string;
  sources: string[];
}

export interface Grass {
  key: string;
  name: string;
  season: string;
  /** The whole range printed for home lawns; null where none was found. */
  cut_mm: { low: number; high: number } | null;
  cut_rows: CutRow[];
}

export const GRASSES = table.grasses as unknown as readonly Grass[];

export function grassOf(key: string): Grass | undefined {
  return GRASSES.find((grass) => grass.key === key);
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
