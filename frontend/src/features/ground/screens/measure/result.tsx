import type { ComponentProps } from "preact";
import {
  area,
  areaBetween,
  areaError,
  percent,
  readNumber,
  roundLength,
  type System,
} from "../../../../format";
import type { Reply } from "../../../../platform/engine/types";
import { units } from "../../../../platform/session/session";
import { given } from "../../../../records/entries";
import { ZoneDrawing } from "../../../../ui/drawing";
import { Figure, Notice } from "../../../../ui/parts";
import type { Method, ZoneForm } from "../../model/zone-form";
import { type AreaResult, outlineFound, sdFound } from "../../model/zone-outline";
import type { MeasureProps } from "./shown";

/** The area so far with its likely error, its working on tap, and the ground drawn to scale. */
export function Result({ editor, form }: MeasureProps) {
  const system = units.value;
  const { call, area_m2 } = editor.measured.value;
  if (form.measures.method === "typed") {
    return area_m2 ? <Figure label="Area" value={area(area_m2, system).text} size="big" /> : null;
  }
  if (!call) return <p class="quiet">{WAITING[form.measures.method] ?? EVERY_LENGTH}</p>;
  const answer = editor.answer.value;
  const busy = editor.stale.value;
  if (!answer) return <p aria-busy="true">Working out the area …</p>;
  if (answer.error) {
    return (
      <div aria-invalid="true" tabIndex={-1}>
        <Notice kind="bad" alert title="These lengths make no area">
          <p>{editor.refusal.value?.says ?? answer.error.message}</p>
        </Notice>
      </div>
    );
  }
  const drawn = outlineFound(form.measures, answer.value);
  const heading = drawn ? headingOf(form) : undefined;
  // The board the corners are dragged on is the drawing, unless there are strips to show on it.
  const own = form.measures.method === "outline" && heading === undefined;
  return (
    <div class="stack" aria-live="polite" aria-busy={busy ? "true" : undefined}>
      <AreaFigure
        found={{ ...answer.value, sd_m2: sdFound(form.measures, answer.value) ?? null }}
        working={answer.working}
        busy={busy}
        rough={RANGED.includes(form.measures.method)}
      />
      {own ? null : (
        <figure>
          <ZoneDrawing
            {...(drawn ?? (call.args as ComponentProps<typeof ZoneDrawing>))}
            {...given({ heading_deg: heading })}
            label="What was measured, to scale"
            scale={(most: number) => roundLength(most, system)}
          />
        </figure>
      )}
    </div>
  );
}

/** The heading of the strips as far as it can be read. */
function headingOf({ heading }: ZoneForm): number | undefined {
  const read = heading.trim() ? readNumber(heading) : undefined;
  return read?.ok && read.value >= 0 && read.value <= 360 ? read.value : undefined;
}

const EVERY_LENGTH = "Enter every length to see the area.";
const WAITING: Partial<Record<Method, string>> = {
  gps: "Close the loop to see the area.",
  trace: "Set a known length and the corners to see the area.",
  outline: "Draw an outline to see the area.",
};
/** Ways whose error is large enough that a single number would promise too much. */
const RANGED: Method[] = ["gps", "trace"];

interface AreaFigureProps {
  found: AreaResult;
  working: Reply<unknown>["working"];
  rough: boolean;
  busy: boolean;
}

function AreaFigure({ found, rough, ...said }: AreaFigureProps) {
  const system: System = units.value;
  const { area_m2, sd_m2 } = found;
  const middle = area(area_m2, system).text;
  if (!sd_m2) return <Figure label="Area" value={middle} size="big" {...said} />;
  if (!rough) {
    const note = `likely within ± ${areaError(sd_m2, system).text} (${percent(sd_m2 / area_m2).text})`;
    return <Figure label="Area" value={middle} size="big" {...said} note={note} />;
  }
  const between = areaBetween(area_m2 - sd_m2, area_m2 + sd_m2, system);
  const note = `best guess ${middle}; 2 times in 3 it is in this range`;
  return <Figure label="Area, likely between" value={between.text} size="big" {...said} note={note} />;
}
