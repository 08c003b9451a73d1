import { area, roundLength } from "../../../format";
import { units } from "../../../platform/session/session";
import { Figure, Notice } from "../../../ui/parts";
import { RouteDrawing } from "../drawing/plan-drawing";
import { spreading } from "../model";
import type { Plan } from "../model/types";
import { patternOf } from "../model/yard/rows";
import { outBefore, sayScorched, scorchedOf } from "../model/yard/scorched";
import { usePreview } from "./before/use-preview";

/** Ground that got far more than the label's rate, by name: nothing more goes there, and it wants water today. */
export function ScorchedGround() {
  const { plan, pass } = spreading.draft.value ?? {};
  const found = plan ? scorchedOf(spreading.passes.value, pass) : [];
  if (!plan || !found.length) return null;
  return (
    <>
      <Notice kind="warn" title="Nothing more goes here">
        <ul>
          {found.map((one) => (
            <li key={`${one.pass}.${one.from}`}>{sayScorched(one, plan)}</li>
          ))}
        </ul>
        <p>
          It got over one and a half times the label’s rate. Shut the gate over it. Water it heavily today.
        </p>
      </Notice>
      <NextPlans plan={plan} />
    </>
  );
}

/** How the next pass lies, and what it leaves out. */
function NextPlans({ plan }: { plan: Plan }) {
  const passes = spreading.passes.value;
  const number = (passes.at(-1)?.number ?? 0) + 1;
  const walked = passes.filter(({ nothing_came }) => !nothing_came).length;
  const pattern = patternOf(walked + 1, plan.passes, spreading.draft.value?.crossing ?? "offset");
  const out = outBefore(spreading.draft.value, number);
  const ahead = out.length && plan.swath_m ? { zones: plan.zones, swath_m: plan.swath_m } : null;
  const strips = spreading.draft.value?.strips ?? {};
  const { answer, same } = usePreview(ahead, pattern, { strips, out });
  const zones = plan.zones.filter(({ id }) => out.some(({ zone_id }) => zone_id === id));
  if (!same || !answer?.value?.out_m2 || !plan.swath_m) return null;
  const tour = answer.value;
  return (
    <>
      {zones.map((zone) => (
        <RouteDrawing
          key={zone.id}
          zones={[zone]}
          rows={tour.rows.filter(({ zone_id }) => zone_id === zone.id)}
          at={0}
          pass={number}
          swath_m={plan.swath_m ?? 0}
          out={out}
          scale={(most_m) => roundLength(most_m, units.value)}
        />
      ))}
      <Figure
        label="Left out of the next pass"
        value={area(tour.out_m2 ?? 0, units.value).text}
        note="the lattice on the plan"
        working={answer.working}
      />
    </>
  );
}
