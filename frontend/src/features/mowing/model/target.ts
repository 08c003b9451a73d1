/** What a zone is cut to, and what the engine is asked on the way there. */
import type { Args } from "../../../platform/engine/types";
import { given } from "../../../records/entries";
import { type Lawn, turfOf } from "./lawns";
import type { Mower } from "./mowers";
import { reachOf } from "./mowers";
import type { WarmDays } from "./recent";

/** What only the person standing there knows, and the weather. */
export interface Conditions {
  drought: boolean;
  /** The last days' warmth, up to today. */
  recent?: WarmDays | undefined;
  today?: string;
}

/** Null where no range is printed that all places share: then the zone's own height stands alone. */
export function heightArgs(lawn: Lawn, { drought, recent, today }: Conditions): Args<"mowing.height"> | null {
  const [turf, range] = [turfOf(lawn), lawn.grass?.cut_mm];
  if (!turf || !range) return null;
  const { shade, own_mm } = lawn;
  return {
    turf,
    low_mm: range.low,
    high_mm: range.high,
    shade,
    drought,
    ...given({ own_mm }),
    ...(recent?.length && today ? { days: recent, today } : {}),
  };
}

/** When this household mows. */
export interface Rhythm {
  nights: number[];
  today: string;
}

/** How long grass comes down to the height wanted, on the household's own nights, by what this mower can be set to. */
export function wayDownArgs(
  height_mm: number | undefined,
  target_mm: number | undefined,
  lawn: Lawn,
  mower: Mower | undefined,
  /** Days since the last cut, where it is planned from that one; measured grass is cut today. */
  since_days?: number,
  rhythm?: Rhythm,
): Args<"mowing.way_down"> | null {
  if (height_mm === undefined || target_mm === undefined) return null;
  const nights = rhythm?.nights.length ? { weekdays: rhythm.nights, today: rhythm.today } : {};
  return {
    height_mm,
    target_mm,
    ...given({ days_between: lawn.every_days, since_days }),
    ...nights,
    ...reachOf(mower),
  };
}
