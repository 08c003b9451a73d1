/** What may go on a zone at most: the published rows handed to the engine, which picks the figure that holds. */
import grasses from "../../../fixtures/published/grasses.json";
import limits from "../../../fixtures/published/limits.json";
import type { Row } from "../platform/store/types";
import { given } from "./entries";

/** As `limits.ceilings` answers for one zone; null where nothing is published. */
export interface Ceilings {
  zone_id: string;
  n_year_kg_m2: number | null;
  n_once_kg_m2: number | null;
  n_quick_once_kg_m2: number | null;
  p2o5_once_kg_m2: number | null;
  p2o5_year_kg_m2: number | null;
}

export interface CeilingsValue {
  zones: Ceilings[];
  lime_once_kg_m2: number | null;
}

export interface CeilingZone {
  id: string;
  grass?: string;
  sun?: string;
}

/** The published ranges of a year's nitrogen for a grass; none for one that no table knows. */
function yearRows(grass: string | undefined): object[] {
  const found = grasses.grasses.find(({ key }) => key === grass);
  return (found?.nitrogen_year_rows ?? []) as object[];
}

/** `limits.ceilings`. The place is not asked for yet, so the lowest published figures hold. */
export function ceilingsArgs(zones: readonly CeilingZone[]): object {
  const { nitrogen_per_application: once, phosphate, lime } = limits;
  const asked = zones.map(({ id, grass, sun }) => ({
    id,
    ...given({ grass, sun }),
    year_rows: yearRows(grass),
  }));
  return { zones: asked, once, phosphate, lime };
}

export function ceilingZone({ id, groups }: Row): CeilingZone {
  const { grass } = groups["grass"]?.value ?? {};
  const { sun } = groups["site"]?.value ?? {};
  return { id, ...given({ grass, sun }) } as CeilingZone;
}
