import { area, count, mass, money, nitrogen, rate, unit as unitNamed } from "../../../format";
import type { Groups } from "../../../forms/record-form";
import { type Args, type EngineError, type Step, useEngine, type Value } from "../../../platform/engine";
import { units } from "../../../platform/session/session";
import { given } from "../../../records/entries";
import { MOST_SHOWN, matchArgs, sayRest, sayZones } from "../../../records/ground/bag-fits";
import type { ProductAnalysis } from "../../../records/kinds.gen";
import { Button, Figure } from "../../../ui/parts";
import { CanItBurn } from "../../spreading";
import { shed } from "../model";
import { labelCalls, neededCall, nutrientCall, type ZoneArea } from "../model/shed";
import type { ProductProps } from "./form-in";

/** What the label comes to, as it is typed: in the shop aisle as at home. */
export function LabelFigures({ editor }: ProductProps) {
  const groups = editor.read.value?.value ?? {};
  const calls = labelCalls(groups);
  const rated = useEngine("label.rate", calls.rate).answer;
  const rate_kg_m2 = rated?.value?.rate_kg_m2;
  return (
    <section class="section" aria-labelledby="comes-to">
      <h2 id="comes-to">Rate, bags and cost</h2>
      {rated?.error ? <p role="status">{sayRefusal(rated.error)}</p> : null}
      {calls.rate && !rated?.error ? (
        <>
          <Rates groups={groups} rate_kg_m2={rate_kg_m2} working={rated?.working} price={calls.price} />
          <OneBag groups={groups} />
          <Zones groups={groups} rate_kg_m2={rate_kg_m2} />
          <Burning groups={groups} rate_kg_m2={rate_kg_m2} />
        </>
      ) : calls.rate ? null : (
        <p class="quiet">Enter net weight and coverage to see rate, nitrogen and bags.</p>
      )}
    </section>
  );
}

function sayRefusal({ code, message }: EngineError): string {
  return code === "engine_unavailable"
    ? "The figures are not available right now. What you entered is kept."
    : message;
}

interface RatesProps {
  groups: Groups;
  rate_kg_m2: number | undefined;
  working: readonly Step[] | undefined;
  price: Args<"label.nitrogen_price"> | null;
}

function Rates({ groups, rate_kg_m2, working, price }: RatesProps) {
  const system = units.value;
  const fed = useEngine("label.nutrients", nutrientCall(groups, rate_kg_m2)).answer;
  const priced = useEngine("label.nitrogen_price", price).answer;
  const slow = fed?.value?.slow_n_kg_m2;
  return (
    <div class="figures">
      <Figure
        label="Label rate"
        value={rate_kg_m2 === undefined ? <Waiting /> : rate(rate_kg_m2, system).text}
        working={working}
      />
      {fed?.value ? (
        <Figure
          label="Nitrogen"
          value={nitrogen(fed.value.n_kg_m2, system).text}
          working={fed.working}
          note={slow ? `${nitrogen(slow, system).text} of it slow-release` : undefined}
        />
      ) : null}
      {priced?.value ? (
        <Figure
          label="Nitrogen costs"
          value={sayNitrogenPrice(priced.value.price_per_kg_n)}
          working={priced.working}
        />
      ) : null}
    </div>
  );
}

type BurnFields = Pick<ProductAnalysis, "slow_n_share" | "source">;

/** At the label rate, on each zone there is. */
function Burning({ groups, rate_kg_m2 }: { groups: Groups; rate_kg_m2: number | undefined }) {
  const { answer } = useEngine("label.nutrients", nutrientCall(groups, rate_kg_m2));
  const n_kg_m2 = answer?.value?.n_kg_m2;
  if (!n_kg_m2) return null;
  const { slow_n_share, source } = (groups["analysis"] ?? {}) as BurnFields;
  return <CanItBurn n_kg_m2={n_kg_m2} {...given({ slow_n_share, source })} />;
}

/** Money per lb or kg of nitrogen. */
function sayNitrogenPrice(per_kg: number): string {
  const { factor, label } = unitNamed(units.value === "us" ? "lb" : "kg") ?? { factor: 1, label: "kg" };
  return `${money(per_kg * factor).text} per ${label} N`;
}

function Zones({ groups, rate_kg_m2 }: { groups: Groups; rate_kg_m2: number | undefined }) {
  const zones = shed.zones.value;
  if (!zones.length)
    return (
      <div class="row">
        <p class="quiet">Measure a zone to see its bags and cost.</p>
        <Button href="/ground/new">Measure a zone</Button>
      </div>
    );
  return (
    <>
      <h3>Each zone at the label rate</h3>
      <ul class="lines" aria-label="What each zone needs at the label rate">
        {zones.map((zone) => (
          <ZoneLine key={zone.id} zone={zone} args={neededCall(groups, rate_kg_m2, zone.area_m2)} />
        ))}
      </ul>
    </>
  );
}

/** Ground that one bag just covers; nothing where no set of zones comes near it. */
function OneBag({ groups }: { groups: Groups }) {
  const zones = shed.zones.value;
  const { answer } = useEngine("label.match", matchArgs(groups["label"] ?? {}, zones));
  const fits = answer?.value?.choices.slice(0, MOST_SHOWN) ?? [];
  if (!fits.length) return null;
  return (
    <>
      <h3>One bag just covers</h3>
      <ul class="lines" aria-label="One bag just covers">
        {fits.map((fit) => (
          <li key={fit.ids.join(" ")} class="line">
            <span class="line__main">
              <span class="line__title">{sayZones(fit, zones)}</span>
              <span class="line__facts">{sayRest(fit, units.value)}</span>
            </span>
          </li>
        ))}
      </ul>
    </>
  );
}

function ZoneLine({ zone, args }: { zone: ZoneArea; args: Args<"label.needed"> | null }) {
  const system = units.value;
  const { answer } = useEngine("label.needed", args);
  const found = answer?.value;
  return (
    <li class="line">
      <span class="line__main">
        <span class="line__title">{zone.name}</span>
        <span class="line__facts">{area(zone.area_m2, system).text}</span>
      </span>
      <span class="line__end">
        <Figure
          label={found ? bagsAndCost(found) : "Needs"}
          value={found ? mass(found.mass_kg, system).text : <Waiting />}
          working={answer?.working}
        />
      </span>
    </li>
  );
}

function bagsAndCost({ bags, cost }: Value<"label.needed">): string {
  const said = count(bags, "bag").text;
  return cost === null ? said : `${said}, ${money(cost).text}`;
}

/** A figure on its way. */
function Waiting() {
  return <span class="quiet">…</span>;
}
