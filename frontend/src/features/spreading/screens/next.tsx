import { mass } from "../../../format";
import { units } from "../../../platform/session/session";
import { writeDial } from "../../../records/products";
import { DialDrawing, PassSwatch } from "../../../ui/drawing";
import { Button, Figure, Notice, Page } from "../../../ui/parts";
import { spreading } from "../model";
import type { Advice, NextValue } from "../model/asks";
import type { PassDone, Plan } from "../model/types";
import { ActionRefused, NoSetting, Refusal, sayChance, sayLikely, Waiting, WhySetting } from "./bits";
import { Doubts } from "./doubts";
import { ScorchedGround } from "./scorched";

export function NextStep() {
  const plan = spreading.draft.value?.plan;
  const last = spreading.passes.value.at(-1);
  if (!plan || !last)
    return (
      <Page title="Spreading">
        <Waiting what="Loading the passes…" />
      </Page>
    );
  const some = last.left_kg > 0;
  const advice = spreading.next.value?.value?.advice ?? "walk";
  const more = (spreading.toGo.value ?? 1) > 0 && some && advice === "walk";
  return (
    <Page title={`Pass ${last.number} saved`} back="/" backLabel="Pause and go to Today">
      <PassList plan={plan} />
      <SayLast plan={plan} last={last} />
      <ScorchedGround />
      <Doubts />
      {some && advice !== "walk" ? <NoNext advice={advice} /> : null}
      {more ? <NextDial plan={plan} /> : null}
      <ActionRefused />
      <div class="spread__on">
        {more ? <WalkOn plan={plan} last={last} /> : null}
        <Finish more={more} />
        <Button tone="quiet" busy={busy()} onClick={() => void spreading.takeBack()}>
          Undo pass {last.number}
        </Button>
      </div>
      {some && !more && advice === "walk" ? <OnceMore plan={plan} last={last} /> : null}
    </Page>
  );
}

/** Why no setting is given for the next pass: the ground has had its aim, or the engine's advice. */
function NoNext({ advice }: { advice: Advice }) {
  const reason = spreading.next.value?.value?.reason;
  if (advice === "stop" && reason)
    return (
      <Notice kind="warn" title="No further pass">
        <p>{reason}</p>
      </Notice>
    );
  return <NoSetting advice={advice} tooMuch="You would run out before the end." />;
}

/** A save on its way, figures above the buttons still to come, or a finished walk whose card is about to show. */
function busy(): boolean {
  const last = spreading.passes.value.at(-1);
  const coming = last !== undefined && last.left_kg > 0 && !spreading.next.value;
  return coming || spreading.busy.value || spreading.draft.value?.ops[spreading.draft.value.id] !== undefined;
}

/** All planned passes are walked: another one is possible, but not the thing to do next. */
function OnceMore({ plan, last }: { plan: Plan; last: PassDone }) {
  return (
    <details class="spread__more">
      <summary>Spread the last {mass(last.left_kg, units.value).text}</summary>
      <div class="stack">
        <NextDial plan={plan} />
        <WalkOn plan={plan} last={last} tone="plain" />
      </div>
    </details>
  );
}

/** Every pass of this job with its hatch, dial and what went down. */
export function PassList({ plan }: { plan: Plan }) {
  const system = units.value;
  return (
    <ul class="lines" aria-label="Passes of this job">
      {spreading.passes.value.map((pass) => (
        <li key={pass.id} class="line">
          <PassSwatch pass={pass.number} />
          <span class="line__main">
            <span class="line__title">
              Pass {pass.number} at dial {writeDial(pass.dial, plan.dial.step)}
            </span>
            <span class="line__facts">{mass(pass.left_kg, system).text} left</span>
          </span>
          <span class="line__end num">{mass(pass.used_kg, system).text}</span>
        </li>
      ))}
    </ul>
  );
}

/** What the pass just walked means, where it was out of the ordinary. */
function SayLast({ plan, last }: { plan: Plan; last: PassDone }) {
  if (last.nothing_came) return <NothingCame last={last} />;
  if (!last.ran_out) return null;
  return (
    <Notice kind="warn" title="You ran out before the end">
      <p>
        The part you covered got too much. Put no more there. Do the bare part on its own, with a new load and
        a dial below {writeDial(last.dial, plan.dial.step)}.
      </p>
    </Notice>
  );
}

/** A gate that let nothing through: wider, or clogged. Which of the two is for the person to see. */
function NothingCame({ last }: { last: PassDone }) {
  const next = spreading.next.value?.value?.dial;
  const wider = next !== undefined && next > last.dial;
  return (
    <Notice title="Nothing came out">
      <p>
        This pass does not count. {wider ? "The next dial is higher. " : ""} Lump or shut gate? Undo this pass
        and do it again.
      </p>
    </Notice>
  );
}

function NextDial({ plan }: { plan: Plan }) {
  const answer = spreading.next.value;
  const write = (n: number) => writeDial(n, plan.dial.step);
  if (!answer) return <Waiting />;
  if (answer.error) return <Refusal answer={answer} />;
  const said = answer.value;
  const { working } = answer;
  const likely = sayLikely(said.left_kg);
  return (
    <section class="section" aria-labelledby="next-dial">
      <h2 id="next-dial">Next dial</h2>
      <div class="spread__dial">
        <Figure size="big" label="Set to" value={write(said.dial)} working={working} />
        <DialDrawing {...plan.dial} at={said.dial} range={said.dial_likely} write={write} />
      </div>
      <WhySetting said={said} write={write} />
      <div class="figures">
        <Figure
          label="Left after next pass"
          value={likely.mid}
          note={`likely ${likely.range}`}
          working={working}
        />
        <Figure
          label="Chance of running out"
          value={sayChance(said.chance_of_running_out)}
          working={working}
        />
      </div>
      <FurtherPass said={said} />
    </section>
  );
}

/** Much is likely to be left after the last pass planned: one more, rather than a wider gate. */
function FurtherPass({ said }: { said: NextValue }) {
  if (!said.further_pass) return null;
  return (
    <Notice title="Add one more pass">
      <p>About {sayLikely(said.left_kg).mid} will be left. One more pass is safer than a higher dial.</p>
    </Notice>
  );
}

function WalkOn({ plan, last, tone = "signal" }: { plan: Plan; last: PassDone; tone?: "plain" | "signal" }) {
  const answer = spreading.next.value;
  const at = answer?.value?.dial;
  const says =
    at === undefined
      ? `Start pass ${last.number + 1}`
      : `Start pass ${last.number + 1} at dial ${writeDial(at, plan.dial.step)}`;
  return (
    <Button
      tone={tone}
      size="yard"
      wide
      busy={busy()}
      disabled={!answer}
      onClick={() => void spreading.walkOn()}
    >
      {says}
    </Button>
  );
}

function Finish({ more }: { more: boolean }) {
  return (
    <Button
      tone={more ? "plain" : "signal"}
      size="yard"
      wide
      busy={busy()}
      onClick={() => void spreading.finish()}
    >
      {more ? "Finish here" : "Finish"}
    </Button>
  );
}
