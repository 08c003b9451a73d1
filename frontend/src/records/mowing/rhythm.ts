/** The household's mowing nights, as the book has them. */
import type { Store } from "../../platform/store/types";
import { groupOf } from "../groups";
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

/** The mowing nights of the household whose book this is; none where it has not said them. Follows the book. */
export function nightsIn(store: Pick<Store, "rows">): number[] {
  const [row] = store.rows("household").value;
  return row ? weekdaysOf(groupOf("household", row, "rhythm")) : [];
}

export function weekdaysOf(rhythm: Partial<HouseholdRhythm>): number[] {
  return NIGHTS.flatMap((name, at) => (rhythm[name] ? [at + 1] : []));
}
