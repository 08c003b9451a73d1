/** The mowers' part of the shed's list. */
import { Plus } from "lucide-preact";
import { Link } from "wouter-preact";
import { count, height, range, type System } from "../../../format";
import { units } from "../../../platform/session/session";
import { Button, Empty } from "../../../ui/parts";
import { mowers } from "../model";
import type { Mower } from "../model/mowers";

export function Mowers() {
  const all = mowers.all.value;
  return (
    <section class="section" aria-labelledby="mowers">
      <div class="shed__head">
        <h2 id="mowers">Mowers</h2>
        <Button href="/shed/mower/new">
          <Plus aria-hidden="true" size={20} />
          Add a mower
        </Button>
      </div>
      {all.length ? (
        <ul class="lines">
          {all.map((mower) => (
            <MowerLine key={mower.id} mower={mower} />
          ))}
        </ul>
      ) : mowers.loaded.value ? (
        <Empty title="No mower yet">
          <p>Measure each notch once. You then see which notch to set for every zone.</p>
        </Empty>
      ) : null}
    </section>
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
