/** Season: the plan comes later; the nitrogen already put down stands here now. */

import { useEffect, useState } from "preact/hooks";
import { area, nitrogen } from "../../../format";
import { sayRefusal } from "../../../forms/refusal";
import { today as day } from "../../../platform/session/clock";
import { units } from "../../../platform/session/session";
import { keepSolver } from "../../../platform/solver/keep";
import { Button, Empty, Notice, Page, PlaceActions, Sheet, Working } from "../../../ui/parts";
import { totals as told, zonesOfYear } from "../model/nitrogen";
import { RulesLink } from "./rules/link";
import { ShoppingWay } from "./shopping/way";
import { SoilTests } from "./soil-tests";

export default function Season() {
  useEffect(() => void keepSolver(), []);
  return (
    <Page title="Season" actions={<PlaceActions />}>
      <ShoppingWay />
      <Nitrogen />
      <SoilTests />
      <RulesLink />
      <Empty title="No season plan yet" action={<Button href="/">Go to Today</Button>}>
        <p>Season planning is not ready yet. Today shows what needs mowing.</p>
      </Empty>
    </Page>
  );
}

/** The nitrogen ledger so far: per zone, this calendar year, from the walks in the log. */
function Nitrogen() {
  const [why, setWhy] = useState(false);
  const system = units.value;
  const zones = zonesOfYear.value;
  const totals = told.value;
  if (!zones.length) return null;
  return (
    <section class="section" aria-labelledby="nitrogen">
      <h2 id="nitrogen">Nitrogen in {day().slice(0, 4)}</h2>
      {totals?.error ? <Notice kind="bad">{sayRefusal(totals.error, units.value)}</Notice> : null}
      <table class="table">
        <caption class="sr">Nitrogen put down this year, per zone</caption>
        <thead>
          <tr>
            <th scope="col">Zone</th>
            <th scope="col" class="num">
              Area
            </th>
            <th scope="col" class="num">
              {nitrogen(0, system).unit}
            </th>
          </tr>
        </thead>
        <tbody>
          {zones.map((zone) => (
            <tr key={zone.id}>
              <th scope="row">{zone.name}</th>
              <td class="num">{zone.area_m2 ? area(zone.area_m2, system).text : "–"}</td>
              <td class="num">
                {zone.totals
                  ? nitrogen(zone.totals.n_year_kg_m2, system).number +
                    (zone.totals.n_unknown_feeds ? " + ?" : "")
                  : "…"}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {zones.some((zone) => zone.totals?.n_unknown_feeds) ? (
        <p class="quiet">“+ ?” means a product with no nitrogen figure was used.</p>
      ) : null}
      {totals?.working?.length ? (
        <div>
          <Button tone="quiet" onClick={() => setWhy(true)}>
            How this is worked out
          </Button>
        </div>
      ) : null}
      <Sheet open={why} onClose={() => setWhy(false)} title="How this is worked out">
        <Working steps={totals?.working ?? []} />
      </Sheet>
    </section>
  );
}
