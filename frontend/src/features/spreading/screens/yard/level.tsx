import { mass } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { HopperDrawing } from "../../../../ui/drawing";
import { Button } from "../../../../ui/parts";
import { spreading } from "../../model";
import type { Standing } from "../../model/yard/rows";

/** Where the product should stand by now, drawn and in figures; and the way to look whether it does. */
export function LevelNow({ at }: { at: Standing }) {
  const level = spreading.levelNow.value;
  const { hopper } = spreading.choice.value.spreader ?? {};
  const expected = at.expected_kg;
  return (
    <div class="yard__level">
      {level && hopper && expected !== null ? (
        <HopperDrawing shape={hopper} level={level.level_share} />
      ) : null}
      <p>
        <span class="yard__word">{sayWhere(at, overFull(expected))}</span>
        <b>{expected === null ? "not known" : mass(expected, units.value).text}</b>
      </p>
      {spreading.canCheck.value ? (
        <Button size="yard" onClick={() => void spreading.openCheck()}>
          Check
        </Button>
      ) : null}
    </div>
  );
}

/** What the hopper holds, kg, where there is more: how much of it stands in there is not known until the bag is told. */
export function overFull(expected: number | null): number | null {
  const holds_kg = spreading.full.value?.value?.capacity_kg;
  const more = holds_kg !== undefined && expected !== null && expected > holds_kg;
  return more && !spreading.levelNow.value ? holds_kg : null;
}

function sayWhere({ done }: Standing, holds_kg: number | null): string {
  if (holds_kg !== null) return done > 0 ? "Should be left, hopper + bag" : "In hopper + bag now";
  return done > 0 ? "Should be left" : "In the hopper now";
}
