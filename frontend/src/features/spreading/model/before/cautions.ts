/** Which of the published cautions belong to this job: before it, to confirm; after it, to do. */
import table from "../../../../../../fixtures/published/cautions.json";
import words from "../../../../../../fixtures/published/signal_words.json";
import type { Product } from "../../../../records/products";

export interface Caution {
  key: string;
  says: string;
  sources: string[];
}

/** Cautions under one heading, confirmed together. */
export interface CautionGroup {
  key: string;
  says: string;
  cautions: Caution[];
}

interface Row extends Caution {
  group?: string;
  sorts: string[] | null;
  needs: string | null;
}

export interface Ground {
  near_water: boolean;
  steep: boolean;
}

function holds(needs: string, product: Product, ground: Ground): boolean {
  if (needs === "signal_word") return product.signal_word !== undefined && product.signal_word !== "none";
  if (needs === "near_water") return ground.near_water;
  if (needs === "steep") return ground.steep;
  if (needs === "phosphate") return (product.p2o5_percent ?? 0) > 0;
  // A need this build does not know is shown rather than dropped: a caution too many does no harm.
  return needs === "water_in" || needs === "keep_dry" ? product.water_in === needs : true;
}

function fitting(rows: Row[], product: Product | undefined, ground: Ground): Row[] {
  if (!product) return [];
  return rows.filter(
    ({ sorts, needs }) =>
      (sorts === null || sorts.includes(product.sort)) && (needs === null || holds(needs, product, ground)),
  );
}

/** What to confirm before a job, under its headings; headings without a caution for this job are left out. */
export function cautionsBefore(product: Product | undefined, ground: Ground): CautionGroup[] {
  const rows: Row[] = fitting(table.before as Row[], product, ground);
  const of = (key: string) => rows.filter(({ group }) => group === key);
  return Object.entries(table.groups)
    .map(([key, says]) => ({ key, says, cautions: of(key) }))
    .filter(({ cautions }) => cautions.length);
}

/** Whether every caution of a group is among the keys confirmed. */
export function isConfirmed({ cautions }: CautionGroup, confirmed: readonly string[]): boolean {
  return cautions.every(({ key }) => confirmed.includes(key));
}

/** The keys confirmed once a group is ticked, or no longer is. */
export function confirm(group: CautionGroup, confirmed: readonly string[], on: boolean): string[] {
  const keys = group.cautions.map(({ key }) => key);
  const rest = confirmed.filter((key) => !keys.includes(key));
  return on ? [...rest, ...keys] : rest;
}

export function cautionsAfter(product: Product | undefined): Caution[] {
  return fitting(table.after as Row[], product, { near_water: false, steep: false });
}

/** The signal word of a product with what it means; nothing while the label carries none. */
export function signalWord(product: Product | undefined): { word: string; says: string } | undefined {
  const found = words.words.find(({ key }) => key === product?.signal_word);
  return found?.word ? { word: found.word, says: found.says } : undefined;
}
