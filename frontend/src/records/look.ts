/** Today as this phone last showed it: drawn at once at the next opening, before a table is read or the engine is there. */
import { computed } from "@preact/signals";
import type { Value } from "../platform/engine/types";
import { forgotten, keepLook, lookOf } from "../platform/store/looks";
import type { KeptOff } from "./keep-off";

/** As `record.due` has it. */
export type Due = Pick<Value<"record.due">["zones"][string], "due_on" | "overdue_days" | "state">;

export interface DueZone extends Due {
  id: string;
  name: string;
  lastMow: string | null;
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
