import { mass, nitrogen, percent, rate } from "../../../format";
import { units } from "../../../platform/session/session";
import { writeDial } from "../../../records/products";
import { DialDrawing } from "../../../ui/drawing";
import { Button, CheckField, Figure, Notice, orSay, Page } from "../../../ui/parts";
import { KeepOffNotices } from "../../today";
import { spreading } from "../model";
import { leftNow } from "../model/steps";
import type { Plan } from "../model/types";
import { Waiting, WhySetting } from "./bits";
import { PassList } from "./next";
import { useLeave } from "./on-trail";
import { Taught } from "./taught";

/** The finish card: what went down against the aim, the dial to remember, and what is still to do. */
export function FinishStep() {
  const leave = useLeave();
  const plan = spreading.draft.value?.plan;
  if (!plan) return null;
  async function done(): Promise<void> {
    await leave();
    await orSay(() => spreading.putAway());
  }
  return (
    <Page title="Spreading saved" back="/" backLabel="Back to Today">
      <KeepOffNotices zoneIds={plan.zones.map(({ id }) => id)} />
      <Delivered plan={plan} />
      <ZoneShares plan={plan} />
      <Taught plan={plan} />
      <Remember plan={plan} />
      <LeftOver plan={plan} />
      <CleanUp />
      <section class="section" aria-labelledby="passes">
        <h2 id="passes">Passes</h2>
        <PassList plan={plan} />
      </section>
      <div class="spread__on">
        <Button tone="signal" size="yard" wide onClick={() => void done()}>
          Done
        </Button>
        <Button href={`/log/${spreading.draft.value?.id}`}>See it in the log</Button>
      </div>
    </Page>
  );
}

function Delivered({ plan }: { plan: Plan }) {
  const system = units.value;
  const answer = spreading.whole.value;
  const ranOut = spreading.passes.value.some((pass) => pass.ran_out);
  const [only, ...more] = answer?.value?.zones ?? [];
  const n = more.length ? undefined : only?.n_kg_m2;
  const used_kg = answer?.value?.used_kg;
  const share = answer?.value?.share_of_target;
  return (
    <section class="section" aria-labelledby="delivered">
      <h2 id="delivered">{plan.product.name}</h2>
      <div class="figures">
        <Figure
          size="big"
          label="Put down"
          working={answer?.working}
          value={used_kg === undefined ? unsaid(answer) : mass(used_kg, system).text}
          note={`of ${mass(plan.mass_kg, system).text} target`}
        />
        <Figure
          size="big"
          label="Of target"
          value={typeof share === "number" ? percent(share).text : unsaid(answer)}
          note={ranOut ? "on part of the area only" : undefined}
          working={answer?.working}
        />
        {n === undefined || n === null ? null : (
          <Figure
            label="Nitrogen"
            value={nitrogen(n, system).text}
            note={plan.n_kg_m2 === undefined ? undefined : `target ${nitrogen(plan.n_kg_m2, system).text}`}
            working={answer?.working}
          />
        )}
      </div>
    </section>
  );
}

/** Instead of a figure: the engine refused it, or has not said yet. */
const unsaid = (answer: { value?: unknown } | undefined): string =>
  answer && !answer.value ? "not known" : "…";

/** What each zone got, by the ground each pass covered there. */
function ZoneShares({ plan }: { plan: Plan }) {
  const system = units.value;
  const whole = spreading.whole.value?.value;
  if (!whole) return <Waiting />;
  const { zones } = whole;
  const nameOf = (id: string | undefined) => plan.zones.find((zone) => zone.id === id)?.name ?? "A zone";
  return (
    <ul class="lines" aria-label="What each zone got">
      {zones.map(({ zone_id, used_kg, rate_kg_m2, n_kg_m2 }) => (
        <li class="line" key={zone_id}>
          <span class="line__main">
            <span class="line__title">{nameOf(zone_id)}</span>
            <span class="line__facts">
              {rate(rate_kg_m2, system).text}
              {typeof n_kg_m2 === "number" ? ` · ${nitrogen(n_kg_m2, system).text}` : ""}
            </span>
          </span>
          <span class="line__end">{mass(used_kg, system).text}</span>
        </li>
      ))}
    </ul>
  );
}

/** Where to begin next time, with how sure that is and why. */
function Remember({ plan }: { plan: Plan }) {
  const again = spreading.again.value;
  const write = (n: number) => writeDial(n, plan.dial.step);
  const passes = spreading.passes.value.map((pass) => write(pass.dial)).join(", then ");
  const low = spreading.passes.value.some((pass) => pass.ran_out);
  const next = again?.value?.advice === "walk" ? again.value : undefined;
  return (
    <section class="section" aria-labelledby="remember">
      <h2 id="remember">Next time</h2>
      <div class="spread__dial">
        <div class="figures">
          {next ? (
            <Figure size="big" label="Start at" value={`dial ${write(next.dial)}`} working={again?.working} />
          ) : null}
          <Figure label="Used" value={passes} />
        </div>
        {next ? <DialDrawing {...plan.dial} at={next.dial} range={next.dial_likely} write={write} /> : null}
      </div>
      {next ? <WhySetting said={next} write={write} /> : null}
      {low ? (
        <Notice kind="warn" title="Part of the area is bare">
          <p>You ran out early. Note which part is bare, then do it on its own.</p>
        </Notice>
      ) : null}
    </section>
  );
}

/** What was not needed goes home. */
function LeftOver({ plan }: { plan: Plan }) {
  const left_kg = leftNow(plan, spreading.passes.value);
  if (!(left_kg > 0)) return null;
  return (
    <Notice title={`${mass(left_kg, units.value).text} left over`}>
      <p>Put it back in its own bag and close it. Store it dry and locked, away from food.</p>
      <Button href={`/shed/product/${plan.product.id}`}>See it in the shed</Button>
    </Notice>
  );
}

function CleanUp() {
  const confirmed = spreading.draft.value?.confirmed ?? [];
  const tick = (key: string, on: boolean) =>
    void spreading.change({ confirmed: on ? [...confirmed, key] : confirmed.filter((one) => one !== key) });
  return (
    <section class="section" aria-labelledby="clean-up">
      <h2 id="clean-up">Clean up</h2>
      <div class="spread__cautions">
        {spreading.cleanUp.value.map(({ key, says }) => (
          <CheckField
            key={key}
            label={says}
            checked={confirmed.includes(`after:${key}`)}
            onInput={(on) => tick(`after:${key}`, on)}
          />
        ))}
      </div>
    </section>
  );
}
