import { date } from "../../../../format";
import { Notice } from "../../../../ui/parts";
import { spreading } from "../../model";

function ago(days: number): string {
  if (days <= 0) return "today";
  return days === 1 ? "yesterday" : `${days} days ago`;
}

/** Zones fed lately, for a person to judge; what a rule forbids is asked about above. */
export function Warnings() {
  const spoken = spreading.stops.value?.warnings.flatMap(({ zones }) => zones.map(({ zone_id }) => zone_id));
  const lately = spreading.warnings.value.filter(({ zone }) => !spoken?.includes(zone.id));
  if (!lately.length) return null;
  return (
    <Notice title="Done recently">
      <ul class="spread__list">
        {lately.map(({ zone, days, on }) => (
          <li key={zone.id}>
            {zone.name}: {ago(days)}, {date(on)}.
          </li>
        ))}
      </ul>
    </Notice>
  );
}
