import { ArrowUp } from "lucide-preact";
import { useState } from "preact/hooks";
import { area, mass } from "../../../../format";
import { useEngine } from "../../../../platform/engine";
import { units } from "../../../../platform/session/session";
import { MOST_SHOWN, matchArgs, sayRest, sayZones } from "../../../../records/ground/bag-fits";
import { saySort } from "../../../../records/products";
import { Button, CheckField, ChoiceField, Empty, Figure, Page } from "../../../../ui/parts";
import { spreading } from "../../model";
import { StepLine, sayGround, WayOn } from "../bits";
import { Warnings } from "./warnings";

/** What must be chosen before the aim; a message for each thing still missing. */
function missing() {
  const { zones, product, spreader } = spreading.choice.value;
  return {
    zones: zones.length ? undefined : "Choose at least one zone.",
    product: product ? undefined : "Choose a product.",
    spreader: spreader ? undefined : "Choose a spreader.",
  };
}

export function ChooseStep() {
  const [tried, setTried] = useState(false);
  const wrong = missing();
  const shown = tried ? wrong : { zones: undefined, product: undefined, spreader: undefined };
  const { area_m2, zones } = spreading.choice.value;
  function on(): void {
    setTried(true);
    if (!wrong.zones && !wrong.product && !wrong.spreader) void spreading.go("aim");
  }
  return (
    <Page title="New spreading job" back="/" backLabel="Back to Today">
      <StepLine at={1} />
      <Zones error={shown.zones} />
      {zones.length > 1 ? (
        <Figure label="Total area" value={sayGround(area_m2)} note="product is split by area" />
      ) : null}
      <WalkingOrder />
      <Products error={shown.product} />
      <OneBag />
      <Spreaders error={shown.spreader} />
      <Warnings />
      <WayOn onGo={on} back={false}>
        Next: amount
      </WayOn>
      <GiveUp />
    </Page>
  );
}

function Zones({ error }: { error: string | undefined }) {
  const zones = spreading.zones.value;
  const chosen = spreading.draft.value?.zone_ids ?? [];
  if (!zones.length) return <NothingYet what="zone" href="/ground/new" action="Measure a zone" />;
  const toggle = (id: string, on: boolean) =>
    spreading.change({ zone_ids: on ? [...chosen, id] : chosen.filter((one) => one !== id) });
  return (
    <fieldset class="spread__zones" aria-describedby={error ? "zones-error" : undefined}>
      <legend class="field__label">Zones</legend>
      {zones.map((zone) => (
        <CheckField
          key={zone.id}
          label={
            <span class="spread__zone">
              <span>{zone.name}</span>
              <span class="num">
                {zone.area_m2 > 0 ? area(zone.area_m2, units.value).text : "not measured"}
              </span>
            </span>
          }
          checked={chosen.includes(zone.id)}
          disabled={!(zone.area_m2 > 0)}
          onInput={(on) => void toggle(zone.id, on)}
        />
      ))}
      <Wrong id="zones-error" text={error} />
    </fieldset>
  );
}

/** Several zones are walked one after another, in the order of the list. */
function WalkingOrder() {
  const { zones } = spreading.choice.value;
  if (zones.length < 2) return null;
  const earlier = (at: number) => {
    const ids = zones.map(({ id }) => id);
    const [one] = ids.splice(at, 1);
    ids.splice(at - 1, 0, ...(one ? [one] : []));
    void spreading.change({ zone_ids: ids });
  };
  return (
    <section class="section" aria-labelledby="order">
      <h2 id="order">Walking order</h2>
      <ol class="spread__order">
        {zones.map(({ id, name }, at) => (
          <li key={id}>
            <span>
              {at + 1}. {name}
            </span>
            {at > 0 ? (
              <Button label={`Move ${name} up`} onClick={() => earlier(at)}>
                <ArrowUp aria-hidden="true" size={20} />
              </Button>
            ) : null}
          </li>
        ))}
      </ol>
    </section>
  );
}

function Wrong({ id, text }: { id: string; text: string | undefined }) {
  return (
    <span aria-live="polite">
      {text ? (
        <span class="field__error" id={id}>
          <span>{text}</span>
        </span>
      ) : null}
    </span>
  );
}

function Products({ error }: { error: string | undefined }) {
  const products = spreading.products.value;
  if (!products.length) return <NothingYet what="product" href="/shed/product/new" action="Add a product" />;
  const left = spreading.inShed.value;
  const choices = products.map((product) => ({
    value: product.id,
    label: `${product.name} (${saySort(product)})`,
  }));
  return (
    <ChoiceField
      label="Product"
      look="list"
      value={spreading.draft.value?.product_id ?? ""}
      choices={[{ value: "", label: "Choose…" }, ...choices]}
      onInput={(id) => void spreading.change({ product_id: id || null, confirmed: [] })}
      hint={left === null ? undefined : `About ${mass(left, units.value).text} left, by your last count.`}
      error={error}
    />
  );
}

/** Nothing chosen yet: the zones that one bag of the product just covers, to take at a tap. */
function OneBag() {
  const zones = spreading.zones.value;
  const { product } = spreading.choice.value;
  const none = spreading.draft.value?.zone_ids.length === 0;
  const asked = product && none ? matchArgs(product, zones) : null;
  const { answer } = useEngine("label.match", asked);
  const fits = asked ? (answer?.value?.choices.slice(0, MOST_SHOWN) ?? []) : [];
  if (!fits.length) return null;
  return (
    <section class="section" aria-labelledby="one-bag">
      <h2 id="one-bag">One bag just covers</h2>
      <ul class="lines">
        {fits.map((fit) => (
          <li key={fit.ids.join(" ")} class="line">
            <span class="line__main">
              <span class="line__title">{sayZones(fit, zones)}</span>
              <span class="line__facts">{sayRest(fit, units.value)}</span>
            </span>
            <Button
              label={`Choose ${sayZones(fit, zones)}`}
              onClick={() => void spreading.change({ zone_ids: [...fit.ids] })}
            >
              Choose
            </Button>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Spreaders({ error }: { error: string | undefined }) {
  const spreaders = spreading.spreaders.value;
  if (!spreaders.length)
    return <NothingYet what="spreader" href="/shed/spreader/new" action="Add a spreader" />;
  return (
    <ChoiceField
      label="Spreader"
      look="list"
      value={spreading.draft.value?.spreader_id ?? ""}
      choices={[
        { value: "", label: "Choose…" },
        ...spreaders.map(({ id, name }) => ({ value: id, label: name })),
      ]}
      onInput={(id) => void spreading.change({ spreader_id: id || null })}
      error={error}
    />
  );
}

function NothingYet({ what, href, action }: { what: string; href: string; action: string }) {
  return (
    <Empty title={`No ${what} yet`} action={<Button href={href}>{action}</Button>}>
      <p>You need a {what} first. Your choices are kept.</p>
    </Empty>
  );
}

/** A job given up before anything was put down leaves nothing behind. */
function GiveUp() {
  const draft = spreading.draft.value;
  if (!draft || (draft.zone_ids.length === 0 && !draft.product_id && !draft.spreader_id)) return null;
  return (
    <Button tone="quiet" onClick={() => void spreading.putAway()}>
      Start over
    </Button>
  );
}
