import { useState } from "preact/hooks";
import { unitsFor } from "../../../format";
import { units } from "../../../platform/session/session";
import { type HopperMeasure, HopperMeasures } from "../../../ui/drawing";
import { UnitField } from "../../../ui/parts";
import { HOPPER_FIELDS } from "../model/shed-forms";
import { formIn, type SpreaderProps } from "./form-in";

/** How each measure is taken, said while its field has the focus. */
const HOW: Record<HopperMeasure, string> = {
  top_length_m: "A: inside the rim, left to right as you push it.",
  top_width_m: "B: inside the rim, from front to back.",
  bottom_length_m: "C: inside, where the slope meets the floor, left to right.",
  bottom_width_m: "D: inside, where the slope meets the floor, from front to back.",
  height_m: "E: straight up from the floor to the rim, not along the slope.",
};

/** The hopper's inside measures: they turn a level into a weight. */
export function HopperPart({ editor }: SpreaderProps) {
  const [focus, setFocus] = useState<HopperMeasure | undefined>(undefined);
  const form = formIn(editor);
  return (
    <section class="section" aria-labelledby="hopper">
      <h2 id="hopper">The hopper</h2>
      <p class="quiet">
        Measure the inside once. Then you can read weight from the level, with no scale. Round hopper: take
        the distance across × 0.89 for both length and width.
      </p>
      <div class="shed__label">
        <div class="shed__bag shed__bag--hopper">
          <HopperMeasures focus={focus} />
          <p role="status">{focus ? HOW[focus] : "Tap a field to see where to measure."}</p>
        </div>
        <div class="fields-2">
          {HOPPER_FIELDS.map(([field, label]) => (
            <UnitField
              key={field}
              label={label}
              value={form.hopper[field]}
              units={unitsFor("length", units.value)}
              onInput={(typed) => editor.change({ hopper: { ...form.hopper, [field]: typed } })}
              onFocus={() => setFocus(field)}
              error={editor.errors.value[field]}
            />
          ))}
        </div>
      </div>
      <UnitField
        label="A full hopper holds"
        hint="If you know it from filling it."
        value={form.holds}
        units={unitsFor("mass", units.value)}
        onInput={(holds) => editor.change({ holds })}
        onFocus={() => setFocus(undefined)}
        error={editor.errors.value["holds_kg"]}
      />
    </section>
  );
}
