/** The nitrogen ledger: per zone what is put down this year, what of it is available, and the aim of the year. */
import { useState } from "preact/hooks";
import { nitrogen, type System } from "../../../format";
import { sayRefusal } from "../../../forms/refusal";
import { today as day } from "../../../platform/session/clock";
import { units } from "../../../platform/session/session";
import { Button, Notice, Sheet, Sideways, Working } from "../../../ui/parts";
import { ledger } from "../model";
import type { LedgerLine } from "../model/ledger";
import { totals as told, type ZoneOfYear, zonesOfYear } from "../model/nitrogen";

const number = (kg_m2: number | null | undefined, system: System): string =>
  kg_m2 === null || kg_m2 === undefined ? "–" : nitrogen(kg_m2, system).number;

function putDown({ totals }: ZoneOfYear, system: System): string {
  if (!totals) return "…";
  return nitrogen(totals.n_year_kg_m2, system).number + (totals.n_unknown_feeds ? " + ?" : "");
}

const lineOf = (id: string): LedgerLine | undefined =>
  ledger.value?.value?.lines.find(({ zone_id }) => zone_id === id);

export function Nitrogen() {
  const system = units.value;
  const zones = zonesOfYear.value;
  const answer = ledger.value;
  const waits = answer === undefined ? "…" : undefined;
  if (!zones.length) return null;
  return (
    <section class="section" aria-labelledby="nitrogen">
      <h2 id="nitrogen">Nitrogen in {day().slice(0, 4)}</h2>
      <Errors />
      <p class="quiet">In {nitrogen(0, system).unit}</p>
      <Sideways label="Nitrogen by zone" caption={`Nitrogen by zone, ${nitrogen(0, system).unit}`}>
        <thead>
          <tr>
            <th scope="col">Zone</th>
            <th scope="col" class="num">
              Put down
            </th>
            <th scope="col" class="num">
              Available
            </th>
            <th scope="col" class="num">
              Aim
            </th>
          </tr>
        </thead>
        <tbody>
          {zones.map((zone) => (
            <tr key={zone.id}>
              <th scope="row">{zone.name}</th>
              <td class="num">{putDown(zone, system)}</td>
              <td class="num">{waits ?? number(lineOf(zone.id)?.free_kg_m2, system)}</td>
              <td class="num">{waits ?? number(lineOf(zone.id)?.aim_kg_m2, system)}</td>
            </tr>
          ))}
        </tbody>
      </Sideways>
      <Notes />
      <Why />
    </section>
  );
}

function Errors() {
  const error = told.value?.error ?? ledger.value?.error;
  return error ? <Notice kind="bad">{sayRefusal(error, units.value)}</Notice> : null;
}

/** What the columns mean, and what is missing to know more. */
function Notes() {
  const zones = zonesOfYear.value;
  const found = ledger.value?.value;
  return (
    <>
      <p class="quiet">Available: set free by now. Slow-release nitrogen waits for warm soil.</p>
      {found && !found.soilKnown ? (
        <p class="quiet">Add the place and its climate to see what is available.</p>
      ) : null}
      {found?.lines.some(({ aim_kg_m2 }) => aim_kg_m2 === null) ? (
        <p class="quiet">No aim: enter the zone’s grass.</p>
      ) : null}
      {zones.some((zone) => zone.totals?.n_unknown_feeds) ? (
        <p class="quiet">“+ ?” means a product with no nitrogen figure was used.</p>
      ) : null}
    </>
  );
}

function Why() {
  const [open, setOpen] = useState(false);
  const working = [...(told.value?.working ?? []), ...(ledger.value?.working ?? [])];
  if (!working.length) return null;
  return (
    <div>
      <Button tone="quiet" onClick={() => setOpen(true)}>
        How this is worked out
      </Button>
      <Sheet open={open} onClose={() => setOpen(false)} title="How this is worked out">
        <Working steps={working} />
      </Sheet>
    </div>
  );
}

/** The same of one zone, on its own page. */
export function ZoneLedger({ id }: { id: string }) {
  const system = units.value;
  const zone = zonesOfYear.value.find((one) => one.id === id);
  const answer = ledger.value;
  if (!zone || !answer?.value) return null;
  const { free_kg_m2 = null, left_kg_m2 = null, aim_kg_m2 = null } = lineOf(id) ?? {};
  const say = (kg_m2: number | null) => (kg_m2 === null ? "–" : nitrogen(kg_m2, system).text);
  return (
    <section class="section" aria-labelledby="zone-nitrogen">
      <h2 id="zone-nitrogen">Nitrogen</h2>
      <dl class="facts">
        <dt>Put down in {day().slice(0, 4)}</dt>
        <dd>{putDown(zone, system)}</dd>
        <dt>Available by now</dt>
        <dd>{say(free_kg_m2)}</dd>
        <dt>Still to come</dt>
        <dd>{say(left_kg_m2)}</dd>
        <dt>Aim of the year</dt>
        <dd>{say(aim_kg_m2)}</dd>
      </dl>
      {answer.value.soilKnown ? null : (
        <p class="quiet">Add the place and its climate to see what is available.</p>
      )}
      <Why />
    </section>
  );
}
