import { DialDrawing, PassSwatch } from "../../drawing";
import { dial, mass } from "../../format";
import { walk } from "../../models";
import { units } from "../../models/session";
import { WHY } from "../../models/walk";
import type { PassDone, Plan } from "../../models/walk-types";
import { Button, Figure, Notice, Page, showToast } from "../../parts";
import { ActionRefused, Refusal, sayChance, sayLikely, Waiting } from "./bits";

export function NextStep() {
  const plan = walk.draft.value?.plan;
  const last = walk.passes.value.at(-1);
  if (!plan || !last)
    return (
      <Page title="Walk">
        <Waiting what="Looking up the passes…" />
      </Page>
    );
  const more = walk.toGo.value > 0 && last.left_kg > 0;
  return (
    <Page
      title={`Pass ${last.number} is in the book`}
      back="/"
      backLabel="Put the walk aside and go to Today"
    >
      <PassList plan={plan} />
      <SayLast plan={plan} last={last} />
      {last.left_kg > 0 ? <NextDial plan={plan} asked={more} /> : null}
      <ActionRefused />
      <Actions plan={plan} last={last} more={more} />
    </Page>
  );
}

/** Every pass of this walk with its hatch, dial and what went down. */
export function PassList({ plan }: { plan: Plan }) {
  const system = units.value;
  return (
    <ul class="lines" aria-label="Passes of this walk">
      {walk.passes.value.map((pass) => (
        <li key={pass.id} class="line">
          <PassSwatch pass={pass.number} />
          <span class="line__main">
            <span class="line__title">
              Pass {pass.number} at {dial(pass.dial, plan.dial.step).text}
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
  if (last.nothing_came)
    return <Notice title="Nothing came out">It counts as not walked. The next setting opens wider.</Notice>;
  if (!last.ran_out) return null;
  return (
    <Notice kind="warn" title="It ran out before the ground was covered">
      <p>
        The covered part had more than its share. Put nothing more there. The bare part can have a walk of its
        own, with a fresh load and a lower dial than {dial(last.dial, plan.dial.step).text}.
      </p>
    </Notice>
  );
}

function NextDial({ plan, asked }: { plan: Plan; asked: boolean }) {
  const answer = walk.next.value;
  const write = (n: number) => dial(n, plan.dial.step).text;
  if (!answer) return <Waiting />;
  if (answer.error) return <Refusal answer={answer} />;
  const { dial: at, left_kg, chance_of_running_out, basis, bad_passes, advice } = answer.value;
  const likely = sayLikely(left_kg);
  return (
    <section class="section" aria-labelledby="next-dial">
      <h2 id="next-dial">{asked ? "Next dial" : "If you walk once more"}</h2>
      {advice === "stop" ? (
        <Notice kind="warn" title="Too little is left for another pass">
          <p>Even the first click that flows would run out on the way. Finish here.</p>
        </Notice>
      ) : null}
      <div class="walk__dial">
        <Figure size="big" label="Set it to" value={write(at)} working={answer.working} />
        <DialDrawing {...plan.dial} at={at} write={write} />
      </div>
      <p>
        {WHY[basis]}
        {bad_passes.length ? " A pass marked as gone wrong was left out." : ""}
      </p>
      <div class="figures">
        <Figure
          label="Left after it"
          value={likely.mid}
          note={`likely ${likely.range}`}
          working={answer.working}
        />
        <Figure
          label="Chance of running out"
          value={sayChance(chance_of_running_out)}
          working={answer.working}
        />
      </div>
    </section>
  );
}

function Actions({ plan, last, more }: { plan: Plan; last: PassDone; more: boolean }) {
  const busy = walk.busy.value || walk.draft.value?.ops[walk.draft.value.id] !== undefined;
  const at = walk.next.value?.value?.dial;
  const again = (
    <Button
      key="on"
      tone={more ? "signal" : "plain"}
      size="walk"
      wide
      busy={busy}
      disabled={!walk.next.value}
      onClick={() => void walk.walkOn()}
    >
      {at === undefined
        ? "Walk the next pass"
        : `Walk pass ${last.number + 1} at ${dial(at, plan.dial.step).text}`}
    </Button>
  );
  const end = (
    <Button
      key="end"
      tone={more ? "plain" : "signal"}
      size="walk"
      wide
      busy={busy}
      onClick={() => void walk.finish()}
    >
      {more ? "That was the last pass" : "Finish the walk"}
    </Button>
  );
  return (
    <div class="walk__on">
      {more ? [again, end] : last.left_kg > 0 ? [end, again] : end}
      <Button tone="quiet" busy={busy} onClick={() => void takeBack(last)}>
        Take pass {last.number} back
      </Button>
    </div>
  );
}

async function takeBack(last: PassDone): Promise<void> {
  if (await walk.takeBack())
    showToast({ text: `Pass ${last.number} is open again; what you wrote is still there.` });
}
