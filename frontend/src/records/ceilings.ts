/** What may go on a zone at most: the published rows handed to the engine, which picks the figure that holds. */
import grasses from "../../../fixtures/published/grasses.json";
import limits from "../../../fixtures/published/limits.json";
import type { Args, Value } from "../platform/engine/types";
import type { Row } from "../platform/store/types";
import { given } from "./entries";

export type CeilingsValue = Value<"limits.ceilings">;
/** As it answers for one zone; null where nothing is published. */
export type Ceilings = CeilingsValue["zones"][number];

export interface CeilingZone {
  id: string;
  grass?: string;
  sun?: string;
}

type YearRows = NonNullable<Args<"limits.ceilings">["zones"][number]["year_rows"]>;

/** The published ranges of a year's nitrogen for a grass; none for one that no table knows. */
export function yearRows(grass: string | undefined): YearRows {
  const found = grasses.grasses.find(({ key }) => key === grass);
  return (found?.nitrogen_year_rows ?? []) as YearRows;
}

/** `limits.ceilings`. The place is not asked for yet, so the lowest published figures hold. */
export function ceilingsArgs(zones: readonly CeilingZone[]): Args<"limits.ceilings"> {
  const { nitrogen_per_application: once, lime } = limits;
  const phosphate = limits.phosphate as Args<"limits.ceilings">["phosphate"];
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
