import { HopperDrawing } from "../../drawing";
import { mass } from "../../format";
import { walk } from "../../models";
import { units } from "../../models/session";
import type { Standing } from "../../models/walk-rows";
import { Button } from "../../parts";

/** Where the product should stand by now, drawn and in figures; and the way to look whether it does. */
export function LevelNow({ at }: { at: Standing }) {
  const level = walk.levelNow.value;
  const { hopper } = walk.choice.value.spreader ?? {};
  const expected = at.expected_kg;
  return (
    <div class="yard__level">
      {level && hopper && expected !== null ? (
        <HopperDrawing shape={hopper} level={level.level_share} />
      ) : null}
      <p>
        <span class="yard__word">{at.done > 0 ? "Should be there now" : "There is now"}</span>
        <b>{expected === null ? "not known" : mass(expected, units.value).text}</b>
        <OverFull expected={expected} drawn={level !== undefined} />
      </p>
      {walk.canCheck.value ? (
        <Button size="walk" onClick={() => void walk.openCheck()}>
          Check
        </Button>
      ) : null}
    </div>
  );
}

/** More than the hopper holds: how much of it stands in there is not known until the bag is told. */
function OverFull({ expected, drawn }: { expected: number | null; drawn: boolean }) {
  const holds = walk.full.value?.value?.capacity_kg;
  if (drawn || expected === null || !holds || expected <= holds) return null;
  return (
    <span class="yard__word">The hopper holds {mass(holds, units.value).text}: the rest is in the bag.</span>
  );
}
