import { unitsFor } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { type Choice, ChoiceField, Notice, UnitField } from "../../../../ui/parts";
import { formReadsHigh, type WidthRule } from "../../model/zone-widths";
import { LinesFields } from "./lines";
import { shownErrors, type WayProps } from "./shown";

const PLACES: Choice<WidthRule>[] = [
  { value: "ends", label: "At both ends and between" },
  { value: "middle", label: "In the middle of equal strips" },
  { value: "simpson", label: "Both ends, curved edge" },
];

const HINTS: Record<WidthRule, string | undefined> = {
  ends: "Each end counts half. Enter 0 where the lawn comes to a point.",
  middle: "Mark off equal strips. Measure each one across its middle.",
  simpson: "Simpson’s rule. It needs an odd number of widths.",
  sum: undefined,
};

/** Widths at even steps; where they were taken decides how the two end ones count. */
export function Widths({ editor, measures, set }: WayProps) {
  const errors = shownErrors(editor);
  const unsaid = formReadsHigh(measures.rule, measures.offsets.amounts);
  const rule = measures.rule === "sum" && !unsaid ? "ends" : measures.rule;
  return (
    <div class="stack">
      <p class="quiet">
        Run a string down the longest part. At even steps, measure the width at right angles to the string.
      </p>
      {unsaid ? (
        <Notice kind="warn" title="This area may read high">
          <p>Both end widths are counted in full. Choose where you measured the widths.</p>
        </Notice>
      ) : null}
      <ChoiceField
        label="Where did you measure the widths?"
        value={rule}
        onInput={(place) => set({ rule: place })}
        hint={HINTS[rule]}
        choices={PLACES}
      />
      <UnitField
        label="Spacing along the line"
        units={unitsFor("length", units.value)}
        words
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
    </div>
  );
}
