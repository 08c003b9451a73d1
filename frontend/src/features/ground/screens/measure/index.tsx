import { unitsFor } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { ChoiceField, UnitField } from "../../../../ui/parts";
import type { Measures, Method } from "../../model/zone-form";
import { WalkEdge } from "./gps";
import { LinesFields } from "./lines";
import { DrawOutline } from "./outline";
import { PartsFields } from "./parts-fields";
import { type MeasureProps, shownErrors, type WayProps } from "./shown";
import { TracePlan } from "./trace";
import { Widths } from "./widths";
import "../../style.css";

const METHODS: { value: Method; label: string }[] = [
  { value: "shapes", label: "Shapes" },
  { value: "offsets", label: "Widths from a line" },
  { value: "radii", label: "From one point" },
  { value: "gps", label: "Walk the edge with the phone" },
  { value: "trace", label: "Trace over a plan" },
  { value: "outline", label: "Draw the outline" },
  { value: "typed", label: "I know the area" },
];

/** Ways to measure, chosen for the ground at hand; what was written under another way is kept. */
export function MeasureFields({ editor, form }: MeasureProps) {
  const { measures } = form;
  const set = (part: Partial<Measures>) => editor.change({ measures: { ...measures, ...part } });
  return (
    <section class="section" aria-labelledby="measure">
      <h2 id="measure">Measure</h2>
      <ChoiceField
        label="How will you measure?"
        value={measures.method}
        onInput={(method) => set({ method })}
        choices={METHODS}
      />
      {measures.method === "shapes" ? <PartsFields editor={editor} measures={measures} set={set} /> : null}
      {measures.method === "offsets" ? <Widths editor={editor} measures={measures} set={set} /> : null}
      {measures.method === "radii" ? <Radii editor={editor} measures={measures} set={set} /> : null}
      {measures.method === "gps" ? <WalkEdge editor={editor} measures={measures} set={set} /> : null}
      {measures.method === "trace" ? <TracePlan editor={editor} measures={measures} set={set} /> : null}
      {measures.method === "outline" ? <DrawOutline editor={editor} measures={measures} set={set} /> : null}
      {measures.method === "typed" ? <TypedArea editor={editor} measures={measures} set={set} /> : null}
    </section>
  );
}

function Radii({ editor, measures, set }: WayProps) {
  return (
    <div class="stack">
      <p class="quiet">
        Stand in the middle of a round lawn. Measure to the edge every 60° (6 lengths) or every 10° (36
        lengths). More lengths, more accurate.
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
      hint="Enter the area from a plan or your own measurement."
      units={unitsFor("area", units.value)}
      words
      value={measures.area}
      onInput={(area) => set({ area })}
      error={shownErrors(editor)["area"]}
    />
  );
}
