/** Today as this phone last showed it: drawn at once at the next opening, before a table is read or the engine is there. */
import { computed } from "@preact/signals";
import type { Value } from "../platform/engine/types";
import { forgotten, keepLook, lookOf } from "../platform/store/looks";
import type { KeptOff } from "./keep-off";

/** As `record.due` has it. */
export type Due = Pick<Value<"record.due">["zones"][string], "due_on" | "overdue_days" | "state">;

type Mow = Value<"mowing.forecast">["zones"][string];
type OnNight = Value<"mowing.tonight">["zones"][number];

/** What the forecast says of a zone, for the household's next mowing night. */
export interface ZoneMow
  extends Pick<Mow, "known" | "mow_by" | "earliest" | "latest" | "state" | "growing_again" | "looks">,
    Pick<OnNight, "due" | "why" | "taken_share" | "cut_to_mm"> {
  /** Its place in the order of need. */
  at: number;
  /** What a cut would take if it waits for the night after. */
  skipped_share?: number | null;
}

/** A day's weather, as it is said in words. */
export interface Night {
  date: string;
  min_c?: number;
  max_c?: number;
  rain_mm?: number;
  wind_m_s?: number;
}

/** An evening: the mowing night it is or waits for, and what the sky does meanwhile. */
export interface Evening {
  /** Whether any weather is known at all; without it days between mows decide, as before. */
  weather: boolean;
  night: string | null;
  /** The mowing night after that one. */
  nextNight?: string | null;
  isTonight: boolean;
  /** What keeps from mowing on a mowing night before that one. */
  skipped: readonly { date: string; why: "rain" | "frost" }[];
  /** Whether the household has said its nights. */
  hasNights: boolean;
  zones: Readonly<Record<string, ZoneMow>>;
  nights: readonly Night[];
  /** The moment of sunset, where the place is known and it sets. */
  sunset?: string;
  /** The moment the forecast came, where it reaches to this day; else the climate alone is behind it. */
  fetchedAt?: string;
}

export interface DueZone extends Due {
  id: string;
  name: string;
  lastMow: string | null;
  /** Where a forecast is behind it. */
  mow?: ZoneMow;
}

/** What a household has set up. */
export interface Has {
  zones: boolean;
  products: boolean;
  spreaders: boolean;
}

export interface Look {
  /** The moment at which the engine said so. */
  at: string;
  /** Due zones by day: that day's, and those of the days after it, as the engine has them if nothing is logged. */
  days: Record<string, readonly DueZone[]>;
  /** The evenings of those days; none in a look that was kept before there were forecasts. */
  evenings?: Record<string, Evening>;
  keptOff: Record<string, KeptOff>;
  /** Of the zones and products that `keptOff` speaks of. */
  names: Record<string, string>;
  has: Has;
  /** Zones that somebody had said they would mow that day. */
  taken: readonly string[];
}

interface LookParts {
  /** The name of the book that is or will be open. */
  book: () => string | undefined;
  now: () => string;
}

export function createLook({ book, now }: LookParts) {
  const kept = computed(() => {
    const name = book();
    return name ? (lookOf(name) as Look | undefined) : undefined;
  });
  return {
    kept,
    /** Zones to keep off that are not over yet. */
    keptOff(): Record<string, KeptOff> {
      const rows = Object.entries(kept.value?.keptOff ?? {});
      return Object.fromEntries(rows.filter(([, { until }]) => Date.parse(until) > Date.parse(now())));
    },
    /** Counts what made an earlier look old. */
    forgotten,
    keep(look: Look): void {
      const name = book();
      if (name) keepLook(name, look);
    },
  };
}

export type LookModel = ReturnType<typeof createLook>;
