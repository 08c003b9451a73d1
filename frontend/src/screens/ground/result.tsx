import { ZoneDrawing } from "../../drawing";
import { area, percent, roundLength } from "../../format";
import { units } from "../../models/session";
import { Figure, Notice } from "../../parts";
import type { MeasureProps } from "./shown";

/** The area so far with its likely error, its working on tap, and the ground drawn to scale. */
export function Result({ editor, form }: MeasureProps) {
  const system = units.value;
  const { call, area_m2 } = editor.measured.value;
  if (form.measures.method === "typed") {
    return area_m2 ? <Figure label="Area" value={area(area_m2, system).text} size="big" /> : null;
  }
  if (!call) return <p class="quiet">The area appears here as soon as every length is written.</p>;
  const answer = editor.answer.value;
  if (!answer) return <p aria-busy="true">Working out the area …</p>;
  if (answer.error) {
    return (
      <div aria-invalid="true" tabIndex={-1}>
        <Notice kind="bad" alert title="This measures no ground">
          <p>{answer.error.message}</p>
        </Notice>
      </div>
    );
  }
  const { area_m2: got, sd_m2 } = answer.value;
  return (
    <div class="stack" aria-live="polite">
      <Figure
        label="Area"
        value={area(got, system).text}
        size="big"
        working={answer.working}
        note={
          sd_m2 ? `likely within ± ${area(sd_m2, system).text} (${percent(sd_m2 / got).text})` : undefined
        }
      />
      <figure>
        <ZoneDrawing
          {...call.args}
          label="What was measured, to scale"
          scale={(most: number) => roundLength(most, system)}
        />
      </figure>
    </div>
  );
}
