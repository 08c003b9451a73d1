/** The nitrogen a zone would have had this year, this walk included, against the published range for its grass. */
import table from "../../../fixtures/published/grasses.json";
import { type Entry, given } from "./entries";
import type { WalkZone } from "./walk-types";

export interface YearAsk {
  grass: string;
  args: object;
}

/** The most of the published ranges for a grass, kg of nitrogen per m2 and year; undefined where none is printed. */
export function mostAYear(grass: string | undefined): { name: string; n_kg_m2: number } | undefined {
  const found = table.grasses.find(({ key }) => key === grass);
  const rows = (found?.nitrogen_year_rows ?? []) as { high_kg_m2?: number }[];
  const highs = rows.flatMap(({ high_kg_m2 }) => high_kg_m2 ?? []);
  return found && highs.length ? { name: found.name, n_kg_m2: Math.max(...highs) } : undefined;
}

/** What each walk in the book brought to a zone, as `feeding.ledger` takes it. */
function feedings(zoneId: string, entries: readonly Entry[]): object[] {
  return entries
    .filter(({ kind, struck }) => kind === "walk" && !struck)
    .flatMap(({ at, body }) =>
      ((body["zones"] ?? []) as { zone_id: string; n_kg_m2: number | null }[])
        .filter(({ zone_id, n_kg_m2 }) => zone_id === zoneId && typeof n_kg_m2 === "number")
        .map(({ n_kg_m2 }) => ({
          date: at.slice(0, 10),
          zone: zoneId,
          n_kg_m2,
          ...given({ slow_share: body["slow_n_share"] }),
        })),
    );
}

/** `feeding.ledger` for a zone with this walk already on it; null where its grass has no published range. */
export function yearAsk(
  zone: WalkZone,
  entries: readonly Entry[],
  n_kg_m2: number | null | undefined,
  today: string,
): YearAsk | null {
  const most = mostAYear(zone.grass);
  if (!most || !n_kg_m2) return null;
  const day = today.slice(0, 10);
  const all = [...feedings(zone.id, entries), { date: day, zone: zone.id, n_kg_m2 }];
  const ceilings = { n_year_kg_m2: most.n_kg_m2 };
  return { grass: most.name, args: { entries: all, zone: zone.id, today: day, ceilings } };
}
