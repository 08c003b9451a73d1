/** The plan that was found: its steps with their reasons, what to buy, what it leaves out, and the way to keep it. */
import { useState } from "preact/hooks";
import { mass, money } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { named, sayZones } from "../../../../records/log/named";
import { Button, NotSaved, offerUndo, Sheet, useSaving, Working } from "../../../../ui/parts";
import { changes, keep, planning, steps, supposed } from "../../model/plan";
import type { Change } from "../../model/plan/changes";
import type { Shown } from "../../model/plan/planning";
import { JOBS } from "../jobs";
import { LackingList } from "./lacking";
import { sayChange, sayFacts, sayKept, sayUnused, sayWeek, sayWhy } from "./words";

export function FoundPlan({ shown }: { shown: Shown }) {
  const found = changes.value;
  const moves = found.filter(({ what }) => what !== "same").length;
  const again = steps.value.length > 0;
  return (
    <>
      <h3>{supposed.value || (again ? "Changes to your plan" : "Found plan")}</h3>
      {again ? <p>{moves ? "Steps that stay the same have no mark." : "Nothing would change."}</p> : null}
      <ol class="lines">
        {found.map((change) => (
          <Line key={keyOf(change)} change={change} again={again} />
        ))}
      </ol>
      <ToBuy shown={shown} />
      <LeftOut shown={shown} />
      <Unused shown={shown} />
      <LackingList gathered={shown.gathered} />
      <KeepIt />
    </>
  );
}

const keyOf = ({ what, step, was }: Change): string =>
  step ? `${step.date} ${step.sort} ${step.product} ${step.group}` : `${what} ${was.id}`;

function Line({ change, again }: { change: Change; again: boolean }) {
  const { step } = change;
  const [job, from, facts] =
    change.what === "gone"
      ? [change.was.job, change.was.from_on, sayKept(change.was)]
      : [change.step.sort, change.step.date, sayFacts(change.step, units.value)];
  const mark = again ? sayChange(change) : undefined;
  return (
    <li class="line">
      <div class="line__main">
        <span class="line__title">
          {JOBS[job]} {mark ? <span class="tag">{mark}</span> : null}
        </span>
        <span class="line__facts">
          {sayWeek(from)}
          <br />
          {facts}
        </span>
        {step?.why.length ? (
          <details>
            <summary>Why then</summary>
            <ul class="bullets">
              {step.why.map((why) => (
                <li key={`${why.why} ${why.since}`}>{sayWhy(why, units.value)}</li>
              ))}
            </ul>
          </details>
        ) : null}
      </div>
    </li>
  );
}

function ToBuy({ shown: { plan, working } }: { shown: Shown }) {
  const [why, setWhy] = useState(false);
  return (
    <>
      <h3>To buy</h3>
      {plan.bags.length ? (
        <ul class="bullets">
          {plan.bags.map(({ product, bags, kg, price }) => (
            <li key={product}>
              {bags} × {named(product, "a product not on this phone")}, {mass(kg, units.value).text},{" "}
              {money(price).text}
            </li>
          ))}
        </ul>
      ) : (
        <p>{plan.missed_n_kg > 0 ? "Nothing." : "Nothing. What is in the shed is enough."}</p>
      )}
      <dl class="facts">
        <dt>Bags</dt>
        <dd>{money(plan.cost.bought).text}</dd>
        <dt>Evenings</dt>
        <dd>{plan.evenings}</dd>
        <dt>Nitrogen missed</dt>
        <dd>{mass(plan.missed_n_kg, units.value).text}</dd>
      </dl>
      <p class="quiet">The cost compared above also counts leftovers, evenings and missed nitrogen.</p>
      <div>
        <Button tone="quiet" onClick={() => setWhy(true)}>
          How this is worked out
        </Button>
      </div>
      <Sheet open={why} onClose={() => setWhy(false)} title="How this is worked out">
        <Working steps={working} />
      </Sheet>
    </>
  );
}

const zonesOf = ({ plan }: Shown["gathered"]): ReadonlyMap<string, string> =>
  new Map(plan.groups.map(({ id, zones }) => [id, sayZones(zones)]));

function LeftOut({ shown: { plan, gathered } }: { shown: Shown }) {
  if (!plan.left_out.length) return null;
  const zones = zonesOf(gathered);
  return (
    <>
      <h3>No week found</h3>
      <ul class="bullets">
        {plan.left_out.map(({ group, job, sort }) => (
          <li key={`${group} ${job}`}>
            {JOBS[sort]}, {zones.get(group)}
          </li>
        ))}
      </ul>
    </>
  );
}

/** Told only where grass goes short: else it is no loss that a bag has no place in the year. */
function Unused({ shown: { plan, gathered } }: { shown: Shown }) {
  if (!(plan.unused.length && plan.missed_n_kg > 0)) return null;
  const zones = zonesOf(gathered);
  return (
    <>
      <h3>Products the plan can’t use</h3>
      <ul class="lines">
        {plan.unused.map((one) => (
          <li class="line" key={`${one.group} ${one.product}`}>
            <span class="line__main">
              <span class="line__title">{named(one.product, "a product not on this phone")}</span>
              <span class="line__facts">
                {zones.get(one.group)}
                <br />
                {sayUnused(one, units.value)}
              </span>
            </span>
          </li>
        ))}
      </ul>
    </>
  );
}

function KeepIt() {
  const saving = useSaving();
  const keepIt = () =>
    saving.run(async () => {
      const made = await keep();
      offerUndo("Plan saved.", made.back);
    });
  return (
    <>
      <NotSaved of={saving} />
      <div class="row">
        <Button tone="signal" busy={saving.busy.value} onClick={() => void keepIt()}>
          Keep this plan
        </Button>
        <Button tone="quiet" onClick={planning.clear}>
          Discard
        </Button>
      </div>
    </>
  );
}
