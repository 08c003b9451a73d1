/** What the engine is asked where the days between mows decide. */
import type { Args } from "../../platform/engine/types";
import type { Row } from "../../platform/store/types";
import { given, type Totals } from "../entries";
import { groupOf } from "../groups";

/** Zones with the last mow that the log knows of, and how often each is mowed. */
export function dueAsked(zones: readonly Row[], { zones: known }: Totals, today: string): Args<"record.due"> {
  return {
    zones: zones.map((row) => ({
      id: row.id,
      last_mow: known[row.id]?.last_mow ?? null,
      ...given({ mow_every_days: groupOf("zone", row, "cut").mow_every_days }),
    })),
    today,
  };
}
