/** What stays clear of water on a job (`limits.setback`), and the ground that is then left to treat. */
import table from "../../../../../../fixtures/published/limits.json";
import type { Args, Value } from "../../../../platform/engine/types";
import { given } from "../../../../records/entries";
import type { Spreader } from "../../../../records/products";
import type { SpreadZone } from "../types";

export type SetbackValue = Value<"limits.setback">;
export type SetbackZone = SetbackValue["zones"][number];

/** Less than this is no zone to walk (fixtures/kinds/, zone.ground.area_m2). */
const LEAST_M2 = 0.5;

/** The place is not asked for yet, so the widest published setback holds where none was entered. */
export function setbackArgs(
  zones: readonly SpreadZone[],
  spreader: Spreader | undefined,
): Args<"limits.setback"> | null {
  if (!zones.some(({ near_water }) => near_water)) return null;
  const asked = zones.map(({ id, area_m2, near_water, water_edge_m, setback_m }) => ({
    id,
    area_m2,
    ...given({ near_water, water_edge_m, setback_m }),
  }));
  const guarded = spreader ? spreader.sort === "drop" || spreader.deflector === true : undefined;
  return { zones: asked, rows: table.setback, ...given({ guarded }) };
}

/** Whether ground may be left out: then no area is known before the engine has told it. */
export const leavesOut = (zones: readonly SpreadZone[]): boolean =>
  zones.some(({ near_water, water_edge_m }) => near_water === true && water_edge_m !== undefined);

/** The zones with the ground left to treat in each; one that lies wholly in its setback is not walked. */
export function treated(zones: readonly SpreadZone[], told: SetbackValue): SpreadZone[] {
  return zones.flatMap((zone) => {
    const found = told.zones.find(({ zone_id }) => zone_id === zone.id);
    const area_m2 = found?.area_m2 ?? zone.area_m2;
    return area_m2 >= LEAST_M2 ? [{ ...zone, area_m2 }] : [];
  });
}
