/** The strip at the water that stays clear: how wide, and what of the ground it takes out of the load. */

import { area, length } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { Button, Figure, Notice } from "../../../../ui/parts";
import { spreading } from "../../model";
import type { SetbackZone } from "../../model/before/setback";
import { Refusal } from "../bits";

const nameOf = (id: string): string => spreading.zones.value.find((zone) => zone.id === id)?.name ?? "A zone";

export function KeepClear() {
  if (!spreading.near_water.value) return null;
  const answer = spreading.setback.value;
  if (!answer?.value) return <Refusal answer={answer} />;
  const rows = answer.value.zones.filter(({ setback_m }) => setback_m !== null);
  if (!rows.length) return null;
  return (
    <Notice kind="warn" title="Keep clear of the water">
      {rows.map((row) => (
        <Clear key={row.zone_id} row={row} />
      ))}
      <p>If the label or your local rule says more, stay back that far.</p>
      <Figure
        label="Left out at the water"
        value={answer.value.out_m2 ? area(answer.value.out_m2, units.value).text : "nothing yet"}
        working={answer.working}
      />
    </Notice>
  );
}

function Clear({ row: { zone_id, setback_m, out_m2, area_m2, drawn } }: { row: SetbackZone }) {
  const back = `${nameOf(zone_id)}: stay ${length(setback_m ?? 0, units.value).text} back from the water.`;
  if (out_m2 === null)
    return (
      <>
        <p>{back} The load still counts that strip, since the length of the edge is not known.</p>
        <Button href={`/ground/${zone_id}/edit`}>Enter the edge at the water</Button>
      </>
    );
  const plan = drawn ? "The plan’s strips stay out of it." : "Skip the strips of the plan that lie in it.";
  const left = area_m2 >= 0.5 ? plan : "Nothing of this zone is left to treat.";
  return <p>{`${back} ${area(out_m2, units.value).text} is left out of the load. ${left}`}</p>;
}

/** The same in the yard, in a line, while a zone at water is walked. */
export function ClearHere({ zone_id }: { zone_id: string | undefined }) {
  const row = spreading.near_water.value
    ? spreading.setback.value?.value?.zones.find((zone) => zone.zone_id === zone_id)
    : undefined;
  if (!row || row.setback_m === null) return null;
  return <p class="yard__clear">Stay {length(row.setback_m, units.value).text} back from the water.</p>;
}
