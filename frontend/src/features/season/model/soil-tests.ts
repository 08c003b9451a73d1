/** Which soil tests stand, the newest first. */
import type { Store } from "../../../platform/store/types";
import { type Entry, instantOf } from "../../../records/entries";
import { standingIn } from "../../../records/log/read";

/** As many as are shown at once; the log has all. */
const MOST = 3;

/** Of one zone: those that name it, and those of the whole yard. */
export function newestTests(store: Pick<Store, "rows" | "loaded">, zoneId: string | undefined): Entry[] {
  return standingIn(store, "soil_test")
    .filter(({ sick, zoneIds }) => !sick.length && (!zoneId || !zoneIds.length || zoneIds.includes(zoneId)))
    .sort((a, b) => instantOf(b) - instantOf(a))
    .slice(0, MOST);
}
