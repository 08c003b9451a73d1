/** How warm the soil of a zone is now, how sure that is, and what it rests on. */
import { useMemo } from "preact/hooks";
import { temperature } from "../../../format";
import { sayRefusal } from "../../../forms/refusal";
import { today as day } from "../../../platform/session/clock";
import { units } from "../../../platform/session/session";
import { Button, Figure, Notice } from "../../../ui/parts";
import { soil } from "../model";
import type { Soil } from "../model/soil";
import { AddReading } from "./add-reading";
import { sayDepth, sayGround, sayLikely } from "./soil-words";

export function ZoneSoil({ id }: { id: string }) {
  const found = useMemo(() => soil.follows({ zoneId: id }), [id]).value;
  return (
    <section class="section zone-soil" aria-labelledby="soil-warmth">
      <h2 id="soil-warmth">Soil warmth</h2>
      {found?.error ? (
        <Notice kind="bad">
          <p>Can’t tell how warm the soil is. {sayRefusal(found.error, units.value)}</p>
        </Notice>
      ) : null}
      {found?.value ? <Now said={found.value} working={found.working} /> : null}
      {found ? null : <p aria-busy="true">Working out the soil …</p>}
      <Acts id={id} missing={found?.value?.chart.now === null} />
    </section>
  );
}

function Now({
  said,
  working,
}: {
  said: Soil;
  working: NonNullable<Parameters<typeof Figure>[0]["working"]>;
}) {
  const system = units.value;
  const { now } = said.chart;
  if (!now) return <p>Add the place and its climate to see how warm the soil is.</p>;
  return (
    <>
      <Figure
        label={`Soil now, ${sayDepth(said.chart, system)}`}
        value={temperature(now.mid, system).text}
        note={`likely ${sayLikely(now, system)}`}
        working={working}
      />
      <p class="small quiet">{sayGround(said, day(), system).join(" ")}</p>
    </>
  );
}

const Acts = ({ id, missing }: { id: string; missing: boolean }) => (
  <div class="row">
    {missing ? <Button href="/weather">Add place and climate</Button> : null}
    <AddReading zoneIds={[id]}>Add a soil reading</AddReading>
    {missing ? null : (
      <Button tone="quiet" href="/weather/soil">
        Soil warmth chart
      </Button>
    )}
  </div>
);
