/** The household's mowing nights, as the book has them. */
import type { HouseholdRhythm } from "../kinds.gen";

/** In the engine's count, Monday 1. */
export const NIGHTS: readonly (keyof HouseholdRhythm)[] = [
  "mow_monday",
  "mow_tuesday",
  "mow_wednesday",
  "mow_thursday",
  "mow_friday",
  "mow_saturday",
  "mow_sunday",
];

export function weekdaysOf(rhythm: Partial<HouseholdRhythm>): number[] {
  return NIGHTS.flatMap((name, at) => (rhythm[name] ? [at + 1] : []));
}
