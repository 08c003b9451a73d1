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
  const asked = zones.map((zone) => {
    const { id, area_m2, near_water, water_edge_m, setback_m } = zone;
    return { id, area_m2, ...given({ near_water, water_edge_m, setback_m }), ...markedOn(zone) };
  });
  const guarded = spreader ? spreader.sort === "drop" || spreader.deflector === true : undefined;
  return { zones: asked, rows: table.setback, ...given({ guarded }) };
}

const isMarked = ({ near_water, outline, water_edges }: SpreadZone): boolean =>
  near_water === true && outline !== undefined && water_edges !== undefined && water_edges.length > 0;

/** The outline with its edges at the water, where some are marked. */
function markedOn(zone: SpreadZone): Partial<Args<"limits.setback">["zones"][number]> {
  const { outline, water_edges } = zone;
  if (!isMarked(zone) || !outline || !water_edges) return {};
  const { points_m, holes_m, circles_m } = outline;
  return { outline_m: points_m, water_edges, ...given({ holes_m, circles_m }) };
}

/** Whether ground may be left out: then no area is known before the engine has told it. */
export const leavesOut = (zones: readonly SpreadZone[]): boolean =>
  zones.some((zone) => (zone.near_water === true && zone.water_edge_m !== undefined) || isMarked(zone));

/** The zones with the ground left to treat in each; one that lies wholly in its setback is not walked. */
export function treated(zones: readonly SpreadZone[], told: SetbackValue): SpreadZone[] {
  return zones.flatMap((zone) => {
    const found = told.zones.find(({ zone_id }) => zone_id === zone.id);
    const area_m2 = found?.area_m2 ?? zone.area_m2;
    const clear_m = (found?.drawn && found.setback_m) || undefined;
    return area_m2 >= LEAST_M2 ? [{ ...zone, area_m2, ...given({ clear_m }) }] : [];
  });
}
