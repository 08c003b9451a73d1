import { useState } from "preact/hooks";
import { count, length, percent, roundLength } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { Button, ChoiceField, Figure, Notice } from "../../../../ui/parts";
import { RouteDrawing } from "../../drawing/plan-drawing";
import { spreading } from "../../model";
import { aheadOf, type TourValue } from "../../model/before/preview";
import type { Crossing, SpreadZone } from "../../model/types";
import { clearOf } from "../../model/yard/lay";
import { patternOf } from "../../model/yard/rows";
import { Refusal, Waiting } from "../bits";
import { type Says, useSays } from "./all-there";
import { usePreview } from "./use-preview";

/** In how many passes, how they lie to each other, and the plan of it. */
export function HowWalked({ says }: { says: Says }) {
  const draft = spreading.draft.value;
  const start = spreading.start.value;
  const advised = start?.value?.passes_advised;
  const passes = draft?.passes ?? advised;
  // Without a load that can be spread there is no answer to wait for.
  const come = start !== undefined || spreading.load.value.error !== undefined;
  useSays(says, "start", come);
  if (!draft || !advised || !passes) return null;
  return (
    <section class="section" aria-labelledby="how-walked">
      <h2 id="how-walked">Passes</h2>
      <Passes passes={passes} advised={advised} />
      {passes > 1 ? <Lying passes={passes} crossing={draft.crossing} /> : null}
      <Preview passes={passes} crossing={draft.crossing} says={says} />
    </section>
  );
}

const MOST_PASSES = 4;

function Passes({ passes, advised }: { passes: number; advised: number }) {
  const choices = Array.from({ length: MOST_PASSES }, (_, k) => ({
    value: String(k + 1),
    label: k + 1 === advised ? `${k + 1} (advised)` : String(k + 1),
  }));
  return (
    <ChoiceField
      label="How many"
      value={String(passes)}
      choices={choices}
      onInput={(text) => void spreading.change({ passes: Number(text) === advised ? null : Number(text) })}
      hint={
        advised > 2
          ? "First time with this product? Use 3 passes. Each one helps set the next."
          : "2 passes are enough for a product you have used before."
      }
    />
  );
}

/** Published trials favour the half swath (osu817_14); right angles stay a choice. */
function Lying({ passes, crossing }: { passes: number; crossing: Crossing }) {
  const third = passes > 2;
  return (
    <ChoiceField
      label={third ? "Third pass" : "Second pass"}
      look="list"
      value={crossing}
      choices={[
        { value: "offset", label: third ? "Same direction as the others" : "Between the first strips" },
        { value: "crossed", label: "Crosswise" },
      ]}
      onInput={(value: Crossing) => void spreading.change({ crossing: value })}
      hint={
        third
          ? "The second pass runs between the first strips. The third can go crosswise."
          : "Both make an uneven throw about a third more even. Crosswise leaves a checkerboard instead of stripes."
      }
    />
  );
}

interface PreviewProps {
  passes: number;
  crossing: Crossing;
  says: Says;
}

function Preview({ passes, crossing, says }: PreviewProps) {
  const [shown, setShown] = useState(1);
  const pass = Math.min(shown, passes);
  const ahead = aheadOf(spreading.choice.value);
  const { answer, come } = usePreview(ahead, patternOf(pass, passes, crossing));
  useSays(says, "plan", come);
  if (!ahead) return <p class="quiet">Add your spreader’s swath to see the plan.</p>;
  return (
    <>
      {passes > 1 ? (
        <ChoiceField
          label="Show pass"
          value={String(pass)}
          choices={Array.from({ length: passes }, (_, k) => ({ value: String(k + 1), label: String(k + 1) }))}
          onInput={(text) => setShown(Number(text))}
        />
      ) : null}
      {answer?.value ? (
        <Laid tour={answer.value} working={answer.working} pass={pass} />
      ) : answer ? (
        <Refusal answer={answer} />
      ) : (
        <Waiting what="Laying out the strips…" />
      )}
    </>
  );
}

interface LaidProps {
  tour: TourValue;
  working: Parameters<typeof Figure>[0]["working"];
  pass: number;
}

function Laid({ tour, working, pass }: LaidProps) {
  const { zones, spreader } = spreading.choice.value;
  const [seen, setSeen] = useState("");
  const zone = zones.find(({ id }) => id === seen) ?? zones[0];
  const system = units.value;
  const rows = tour.rows.filter(({ zone_id }) => zone_id === zone?.id);
  return (
    <>
      {zones.length > 1 ? (
        <ChoiceField
          label="Show zone"
          look="list"
          value={zone?.id ?? ""}
          choices={zones.map(({ id, name }) => ({ value: id, label: name }))}
          onInput={setSeen}
        />
      ) : null}
      <RouteDrawing
        zones={zones}
        rows={rows}
        at={0}
        pass={pass}
        swath_m={spreader?.swath_m ?? 0}
        clear={clearOf(tour)}
        size="large"
        scale={(most) => roundLength(most, system)}
      />
      {zone ? <NoOutline zone={zone} /> : null}
      {spreader?.sort === "rotary" && tour.over_edge_share ? <OverEdge share={tour.over_edge_share} /> : null}
      <div class="figures">
        <Figure
          label="In this pass"
          value={count(tour.strips_total, "strip").text}
          note="includes edge strips"
          working={working}
        />
        {tour.distance_m === null ? null : (
          <Figure label="Walking distance" value={length(tour.distance_m, system).text} working={working} />
        )}
        {tour.minutes === null ? null : (
          <Figure
            label="Walking time"
            value={count(Math.max(1, tour.minutes), "minute").text}
            working={working}
          />
        )}
      </div>
    </>
  );
}

/** A rotary's outermost round runs half a swath in and still throws past the edge. */
function OverEdge({ share }: { share: number }) {
  return (
    <Notice kind="warn" title={`About ${percent(share).text} goes past the edges`}>
      <p>
        {spreading.near_water.value
          ? "Stay back from the water as far as the label and local rules say. "
          : ""}
        {spreading.choice.value.spreader?.deflector
          ? "Shut the edge deflector along the edges. "
          : "Use the edge deflector if your spreader has one. "}
        Sweep granules off paving.
      </p>
    </Notice>
  );
}

function NoOutline({ zone }: { zone: SpreadZone }) {
  if (zone.outline) return null;
  return <Button href={`/ground/${zone.id}`}>Add an outline to {zone.name}</Button>;
}
