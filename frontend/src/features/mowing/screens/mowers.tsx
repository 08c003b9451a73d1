/** The mowers' part of the shed's list. */
import { Link } from "wouter-preact";
import { count, height, range, type System } from "../../../format";
import { units } from "../../../platform/session/session";
import { ListSection } from "../../../ui/parts";
import { mowers } from "../model";
import type { Mower } from "../model/mowers";

export function Mowers() {
  return (
    <ListSection
      id="mowers"
      title="Mowers"
      add={["/shed/mower/new", "Add a mower"]}
      rows={mowers.all.value}
      loaded={mowers.loaded.value}
      none={["No mower yet", "Measure each notch once. You then see which notch to set for every zone."]}
    >
      {(mower) => <MowerLine key={mower.id} mower={mower} />}
    </ListSection>
  );
}

/** "5 notches, 1.25–4 in". */
export function sayReach({ notches, lowest_mm, highest_mm }: Mower, system: System): string {
  const heights = notches.map(({ measured_mm }) => measured_mm).sort((a, b) => a - b);
  const [low, high] = [heights[0] ?? lowest_mm, heights.at(-1) ?? highest_mm];
  const between =
    low !== undefined && high !== undefined ? range(height(low, system), height(high, system)).text : "";
  return [heights.length ? count(heights.length, "notch", "notches").text : "", between]
    .filter(Boolean)
    .join(", ");
}

function MowerLine({ mower }: { mower: Mower }) {
  return (
    <li>
      <Link class="line" href={`/shed/mower/${mower.id}`}>
        <span class="line__main">
          <span class="line__title">{mower.name}</span>
          <span class="line__facts">{sayReach(mower, units.value) || "Not measured yet"}</span>
        </span>
      </Link>
    </li>
  );
}
