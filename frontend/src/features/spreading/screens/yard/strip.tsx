import { Undo2 } from "lucide-preact";
import { roundLength } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { writeDial } from "../../../../records/products";
import { Button } from "../../../../ui/parts";
import { RouteDrawing } from "../../drawing/plan-drawing";
import { spreading } from "../../model";
import type { PassOnFoot, Plan } from "../../model/types";
import type { Standing } from "../../model/yard/rows";

interface Props {
  plan: Plan;
  pass: PassOnFoot;
  at: Standing;
}

/** "Strip 4", or the zone's name where it has no strips. */
export function sayRow({ row, zone, done }: Standing): string {
  return row?.kind === "whole" && zone ? zone.name : `Strip ${done + 1}`;
}

/** The two numbers that matter: the setting, and the strip being walked. */
export function Numbers({ plan, pass, at }: Props) {
  const shown = writeDial(pass.dial, plan.dial.step);
  const long = shown.length > 3 ? " is-long" : "";
  return (
    <div class={at.of > 1 ? "yard__numbers" : "yard__numbers is-alone"}>
      <p class="yard__dial">
        <span class="yard__word">Dial</span>
        <output class={`yard__numeral${long}`} aria-label={`Set the dial to ${shown}`}>
          {shown}
        </output>
      </p>
      {at.of > 1 ? <StripNow at={at} /> : null}
    </div>
  );
}

function StripNow({ at }: { at: Standing }) {
  return (
    <div class="yard__strip">
      {at.row ? (
        <p>
          <span class="yard__word">{at.row.kind === "header" ? "Edge strip" : "Strip"}</span>
          <output class="yard__count" aria-label={`Strip ${at.done + 1} of ${at.of}`}>
            <b>{at.done + 1}</b> <span>of {at.of}</span>
          </output>
        </p>
      ) : (
        <p>
          <span class="yard__word">Strips</span>
          <output class="yard__count" aria-label={`All ${at.of} strips done`}>
            <b>{at.of}</b> <span>all done</span>
          </output>
        </p>
      )}
      {spreading.canUncount.value ? (
        <Button
          size="yard"
          label={`Undo strip ${at.done}`}
          busy={spreading.busy.value}
          onClick={() => void spreading.uncount()}
        >
          <Undo2 aria-hidden="true" />
        </Button>
      ) : null}
    </div>
  );
}

/** How the tracks of a pass lie where they are not drawn (university trials: reference tables, osu817_14). */
export function sayTracks({ pattern }: PassOnFoot): string {
  if (pattern === "crossed") return "Crosswise, over the last strips.";
  if (pattern === "offset") return "Same direction, between the last strips.";
  return "Edge first, then back and forth.";
}

/** The zone being walked, with its strips; the zone named where several are walked, and as it changes. */
export function YardPlan({ plan, pass, at }: Props) {
  const several = plan.zones.length > 1 && at.zone;
  return (
    <div class="yard__plan">
      {several ? (
        <p class={at.new_zone ? "yard__zone is-new" : "yard__zone"} role="status">
          {at.new_zone ? "Now " : ""}
          {at.zone?.name}
          {at.of_zone > 1 ? `: strip ${at.in_zone} of ${at.of_zone}` : ""}
        </p>
      ) : null}
      {pass.rows.length && plan.swath_m ? (
        <RouteDrawing
          zones={plan.zones}
          rows={pass.rows}
          at={at.row ? at.done + 1 : pass.rows.length + 1}
          pass={pass.number}
          swath_m={plan.swath_m}
          out={spreading.draft.value?.out ?? []}
          clear={pass.clear}
          scale={(most_m) => roundLength(most_m, units.value)}
        />
      ) : (
        <p>{sayTracks(pass)}</p>
      )}
      {at.row?.out_m2 ? <p class="yard__shut">Shut the gate over the scorched ground.</p> : null}
    </div>
  );
}
