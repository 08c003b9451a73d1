import { useState } from "preact/hooks";
import { amountIn, density, unitsFor } from "../../../format";
import { sayRefusal } from "../../../forms/refusal";
import { useEngine } from "../../../platform/engine";
import { units } from "../../../platform/session/session";
import { Button, Figure, UnitField } from "../../../ui/parts";
import { densityCall } from "../model/shed";
import { formIn, type ProductProps } from "./form-in";
import { saySeedDensity } from "./seed-density";

/** The bulk density, typed or worked out from a weighed measure of the product. */
export function DensityFields({ editor }: ProductProps) {
  const form = formIn(editor);
  // Open from the start where no density stands; using one does not shut it under the thumb.
  const [open] = useState(form.density.amount.trim() === "");
  const seed = saySeedDensity(form.sort, units.value);
  return (
    <>
      <UnitField
        label="Bulk density"
        hint={["Turns a hopper level into weight. Helps predict flow.", seed].filter(Boolean).join(" ")}
        value={form.density}
        units={unitsFor("density", units.value)}
        onInput={(typed) => editor.change({ density: typed })}
        error={editor.errors.value["bulk_density_kg_m3"]}
      />
      <details class="shed__sample" open={open}>
        <summary>Not known? Weigh a jug of it</summary>
        <Sample editor={editor} />
      </details>
    </>
  );
}

/** A litre jug or a quart, filled level and weighed. */
function Sample({ editor }: ProductProps) {
  const { sampleVolume, sampleWeight } = formIn(editor);
  const { args, errors } = densityCall(sampleVolume, sampleWeight);
  const { answer, busy } = useEngine("hopper.density", args);
  const found = answer?.value?.bulk_density_kg_m3;
  const unit = formIn(editor).density.unit;
  return (
    <div class="stack">
      <p class="quiet">
        Fill a jug loosely. Tap it once and level the top. Weigh it, minus the empty jug. A bigger jug is more
        accurate. Wear gloves. Use this jug for nothing else.
      </p>
      <div class="fields-2">
        <UnitField
          label="Jug holds"
          value={sampleVolume}
          units={unitsFor("volume", units.value)}
          onInput={(typed) => editor.change({ sampleVolume: typed })}
          error={errors.volume}
        />
        <UnitField
          label="Weight"
          hint="Without the jug."
          value={sampleWeight}
          units={unitsFor("mass", units.value)}
          onInput={(typed) => editor.change({ sampleWeight: typed })}
          error={errors.weight ?? (args && answer?.error ? sayRefusal(answer.error, units.value) : undefined)}
        />
      </div>
      {found === undefined || !args ? null : (
        <div class="shed__stock">
          <Figure label="Result" value={density(found, units.value).text} working={answer?.working} />
          <Button
            busy={busy}
            onClick={() => editor.change({ density: { amount: amountIn(found, unit), unit } })}
          >
            Use this density
          </Button>
        </div>
      )}
    </div>
  );
}
