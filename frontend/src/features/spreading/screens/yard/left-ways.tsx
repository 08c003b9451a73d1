import { mass, unitsFor } from "../../../../format";
import type { Answer } from "../../../../platform/engine";
import { units } from "../../../../platform/session/session";
import { HopperDrawing } from "../../../../ui/drawing";
import { Figure, Notice, NumberField, UnitField } from "../../../../ui/parts";
import { spreading } from "../../model";
import type { LeftForm } from "../../model/types";
import type { HopperMass, LeftField } from "../../model/yard/left";

export interface WayProps {
  left: LeftForm;
  set: (part: Partial<LeftForm>) => void;
  /** The message that belongs to a field, once something was typed there. */
  wrong: (field: LeftField) => string | undefined;
}

export function WeighedLeft({ left, set, wrong }: WayProps) {
  return (
    <UnitField
      label="Weight left, hopper and bag"
      hint="Weigh it in a bucket, minus the bucket. Enter 0 if empty."
      value={left.weight}
      units={unitsFor("mass", units.value)}
      onInput={(weight) => set({ weight })}
      error={wrong("weight")}
    />
  );
}

interface LevelProps extends WayProps {
  /** The engine's answer for the level as drawn. */
  read: Answer<HopperMass> | undefined;
  /** Where it should stand, as a share of the hopper's height. */
  expected: number | undefined;
}

/** The drawn hopper: drag the level to where it stands. */
export function LevelLeft({ left, set, wrong, read, expected }: LevelProps) {
  const { spreader } = spreading.choice.value;
  if (!spreader?.hopper)
    return (
      <Notice kind="warn" title="The hopper is not measured yet">
        <p>Add the five hopper measurements in the shed to use the level. Weigh it for now.</p>
      </Notice>
    );
  return (
    <div class="stack">
      <HopperDrawing
        shape={spreader.hopper}
        level={left.level_share ?? 0}
        expected={expected}
        onLevel={(level_share) => set({ level_share })}
        label="Level, smoothed flat"
      />
      <p class="quiet small">
        Drag or slide the level.
        {expected === undefined ? "" : " Dashed line: where it should be."}
      </p>
      {read?.value && left.level_share !== null ? (
        <Figure
          label="In the hopper"
          value={mass(read.value.mass_kg, units.value).text}
          note={`± ${mass(read.value.sd_kg, units.value).text}`}
          working={read.working}
        />
      ) : null}
      <Wrong text={wrong("level")} />
      <UnitField
        label="Still in the bag"
        hint="Not poured in yet. Leave blank if none."
        value={left.in_bag}
        units={unitsFor("mass", units.value)}
        onInput={(in_bag) => set({ in_bag })}
        error={wrong("in_bag")}
      />
      <Density left={left} set={set} wrong={wrong} />
    </div>
  );
}

function Wrong({ text }: { text: string | undefined }) {
  return text ? (
    <span class="field__error">
      <span>{text}</span>
    </span>
  ) : null;
}

/** Asked only where the shed does not know it. */
function Density({ left, set, wrong }: WayProps) {
  const known = spreading.draft.value?.plan?.product.bulk_density_kg_m3;
  if (known) return null;
  return (
    <UnitField
      label="Bulk density"
      hint="Weigh one liter or quart of it. 0.75 kg in a liter is 0.75 kg/L."
      value={left.density}
      units={unitsFor("density", units.value)}
      onInput={(density) => set({ density })}
      error={wrong("density")}
    />
  );
}

export function HandfulsLeft({ left, set, wrong }: WayProps) {
  return (
    <div class="fields-2">
      <NumberField
        label="Handfuls left"
        value={left.handfuls}
        onInput={(handfuls) => set({ handfuls })}
        error={wrong("handfuls")}
      />
      <UnitField
        label="One handful weighs"
        hint="About 3.5 oz (100 g). Better: weigh one of yours."
        value={left.handful}
        units={unitsFor("mass", units.value)}
        onInput={(handful) => set({ handful })}
        error={wrong("handful")}
      />
    </div>
  );
}

export function RanOut({ left, set, wrong }: WayProps) {
  return (
    <div class="stack">
      <NumberField
        label="How much did you cover?"
        hint="Percent (60) or strips (9 of 14)."
        value={left.covered}
        onInput={(covered) => set({ covered })}
        error={wrong("covered")}
      />
      <p class="quiet small">Hopper and bag are both empty.</p>
    </div>
  );
}
