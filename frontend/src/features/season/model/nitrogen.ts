/** The nitrogen ledger so far: each zone with what the log says of it. */
import { computed } from "@preact/signals";
import { NOTHING_YET, type ZoneTotals } from "../../../records/entries";
import { inOrder } from "../../../records/ground/zone-order";
import { store, totals } from "../../../records/live";

export interface ZoneOfYear {
  id: string;
  name: string;
  show: boolean;
  area_m2: number | undefined;
  totals: ZoneTotals | undefined;
}

export const zonesOfYear = computed<ZoneOfYear[]>(() => {
  const known = totals.value?.value?.zones;
  const rows = store.rows("zone").value.map(({ id, groups }) => ({
    id,
    name: String(groups["name"]?.value?.name ?? "Unnamed zone"),
    show: groups["show"]?.value?.show_patch === true,
    area_m2: groups["ground"]?.value?.area_m2,
    totals: known && (known[id] ?? NOTHING_YET),
  }));
  return rows.sort(inOrder);
});

export { totals };
