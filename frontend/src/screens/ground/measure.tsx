import { unitsFor } from "../../format";
import { units } from "../../models/session";
import type { Measures, Method } from "../../models/zone-form";
import { ChoiceField, UnitField } from "../../parts";
import { WalkEdge } from "./gps";
import { LinesFields } from "./lines";
import { DrawOutline } from "./outline";
import { PartsFields } from "./parts-fields";
import { type MeasureProps, shownErrors, type WayProps } from "./shown";
import { TracePlan } from "./trace";
import "./ground.css";

const METHODS: { value: Method; label: string }[] = [
  { value: "shapes", label: "Shapes" },
  { value: "offsets", label: "Widths from a line" },
  { value: "radii", label: "From one point" },
  { value: "gps", label: "Walk the edge with the phone" },
  { value: "trace", label: "Trace over a plan" },
  { value: "outline", label: "Draw the outline" },
  { value: "typed", label: "Area known" },
];

/** Ways to measure, chosen for the ground at hand; what was written under another way is kept. */
export function MeasureFields({ editor, form }: MeasureProps) {
  const { measures } = form;
  const set = (part: Partial<Measures>) => editor.change({ measures: { ...measures, ...part } });
  return (
    <section class="section" aria-labelledby="measure">
      <h2 id="measure">Measure</h2>
      <ChoiceField
        label="How is it measured?"
        value={measures.method}
        onInput={(method) => set({ method })}
        choices={METHODS}
      />
      {measures.method === "shapes" ? <PartsFields editor={editor} measures={measures} set={set} /> : null}
      {measures.method === "offsets" ? <Offsets editor={editor} measures={measures} set={set} /> : null}
      {measures.method === "radii" ? <Radii editor={editor} measures={measures} set={set} /> : null}
      {measures.method === "gps" ? <WalkEdge editor={editor} measures={measures} set={set} /> : null}
      {measures.method === "trace" ? <TracePlan editor={editor} measures={measures} set={set} /> : null}
      {measures.method === "outline" ? <DrawOutline editor={editor} measures={measures} set={set} /> : null}
      {measures.method === "typed" ? <TypedArea editor={editor} measures={measures} set={set} /> : null}
    </section>
  );
}

function Offsets({ editor, measures, set }: WayProps) {
  const errors = shownErrors(editor);
  return (
    <div class="stack">
      <p class="quiet">
        Lay a line the long way through. At equal steps along it measure the width of the grass square to the
        line, the two ends included; where it comes to a point the width is 0.
      </p>
      <UnitField
        label="Spacing along the line"
        units={unitsFor("length", units.value)}
        value={measures.spacing}
        onInput={(spacing) => set({ spacing })}
        error={errors["spacing"]}
      />
      <LinesFields
        what="Width"
        least={2}
        at="offsets"
        lines={measures.offsets}
        errors={errors}
        onInput={(offsets) => set({ offsets })}
      />
      <ChoiceField
        label="Rule"
        value={measures.rule}
        onInput={(rule) => set({ rule })}
        hint={measures.rule === "simpson" ? "Simpson’s rule wants an odd number of widths." : undefined}
        choices={[
          { value: "sum", label: "Sum of widths" },
          { value: "simpson", label: "Simpson" },
        ]}
      />
    </div>
  );
}

function Radii({ editor, measures, set }: WayProps) {
  return (
    <div class="stack">
      <p class="quiet">
        Stand near the middle of a roundish piece. Measure to the edge in equal turns all the way round: every
        10° gives 36 lengths, every 60° gives 6. More lengths, less error.
      </p>
      <LinesFields
        what="Length"
        least={3}
        at="radii"
        lines={measures.radii}
        errors={shownErrors(editor)}
        onInput={(radii) => set({ radii })}
      />
    </div>
  );
}

function TypedArea({ editor, measures, set }: WayProps) {
  return (
    <UnitField
      label="Area"
      hint="From a plan or a measurement of your own. Its error is not known, so none is shown."
      units={unitsFor("area", units.value)}
      value={measures.area}
      onInput={(area) => set({ area })}
      error={shownErrors(editor)["area"]}
    />
  );
}
