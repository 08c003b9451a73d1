/** A zone as the mow sees it; read alike by the sheet of a mow and by the forecast. */
import type { Row } from "../../../platform/store/types";
import { type Grass, grassOf } from "../../../records/grasses";
import { groupOf } from "../../../records/groups";
import { nameIn } from "../../../records/log/names";

/** A zone as a mow needs it. */
export interface Lawn {
  id: string;
  name: string;
  grass: Grass | undefined;
  own_mm: number | undefined;
  every_days: number | undefined;
  shade: boolean;
  /** As somebody wrote it down. */
  soil: string | undefined;
}

export function lawnOf(row: Row): Lawn {
  const { cut_height_mm: own_mm, mow_every_days: every_days } = groupOf("zone", row, "cut");
  const site = groupOf("zone", row, "site");
  return {
    id: row.id,
    name: nameIn(row) ?? "Unnamed zone",
    grass: grassOf(String(groupOf("zone", row, "grass").grass ?? "")),
    own_mm,
    every_days,
    shade: site.sun === "shade",
    soil: site.soil,
  };
}

export type Turf = "cool" | "warm";

export function turfOf({ grass }: Pick<Lawn, "grass">): Turf | undefined {
  return grass?.season === "cool" || grass?.season === "warm" ? grass.season : undefined;
}
