import { count, mass, unitsFor } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { writeDial } from "../../../../records/products";
import { DialDrawing } from "../../../../ui/drawing";
import { Figure, Notice, Page, UnitField } from "../../../../ui/parts";
import { spreading } from "../../model";
import {
  ActionRefused,
  NoSetting,
  Refusal,
  StepLine,
  sayChance,
  sayLikely,
  Waiting,
  WayOn,
  WhySetting,
} from "../bits";

export function LoadStep() {
  const start = spreading.start.value?.value;
  const step = spreading.choice.value.spreader?.dial.step ?? 1;
  // Until all above it is there the button waits, so that it never moves away under a thumb.
  const ready = start && !spreading.load.value.error && start.advice === "walk" && spreading.loadSeen.value;
  const busy = spreading.busy.value || spreading.startBusy.value;
  return (
    <Page title="Load and dial" back="/" backLabel="Back to Today">
      <StepLine at={4} />
      <Load />
      <StartDial />
      <ActionRefused />
      <WayOn onGo={() => void spreading.setOff()} busy={busy} disabled={!ready}>
        {ready ? `Start pass 1 at dial ${writeDial(start.dial, step)}` : "Start pass 1"}
      </WayOn>
    </Page>
  );
}

/** What goes in, how many hopper-fulls, and what was really loaded. */
function Load() {
  const draft = spreading.draft.value;
  const aim = spreading.aim.value;
  const system = units.value;
  if (!draft) return null;
  if (!aim?.value) return aim?.error ? <Refusal answer={aim} /> : <Waiting />;
  const { mass_kg } = aim.value;
  const short = spreading.inShed.value !== null && spreading.inShed.value < mass_kg;
  return (
    <section class="section" aria-labelledby="load">
      <h2 id="load">Weigh out</h2>
      <Figure
        size="big"
        label="Total for all passes"
        value={mass(mass_kg, system).text}
        note={sayFills()}
        working={aim.working}
        busy={spreading.aim.busy.value}
      />
      {short ? (
        <Notice kind="warn" title="You may not have enough">
          <p>
            Your last count says about {mass(spreading.inShed.value ?? 0, system).text} is left. Enter what
            you load.
          </p>
        </Notice>
      ) : null}
      <UnitField
        label="Amount loaded"
        hint="Leave blank if you loaded exactly this. Less is fine. Never more."
        value={draft.loaded}
        units={unitsFor("mass", system)}
        onInput={(loaded) => void spreading.change({ loaded })}
        error={spreading.load.value.error}
      />
    </section>
  );
}

function sayFills(): string | undefined {
  const [capacity, fills] = [spreading.capacity.value, spreading.fills.value?.value?.fills];
  if (!capacity || fills === undefined) return undefined;
  const full = mass(capacity, units.value).text;
  return fills <= 1
    ? `fits in one hopper (holds ${full})`
    : `${count(fills, "hopper fill").text} of up to ${full}`;
}

function StartDial() {
  const { spreader } = spreading.choice.value;
  const answer = spreading.start.value;
  if (!spreader) return null;
  if (!answer) return spreading.load.value.error ? null : <Waiting />;
  if (answer.error) return <Refusal answer={answer} />;
  const { dial: at, left_kg, chance_of_running_out, advice, dial_likely } = answer.value;
  if (advice !== "walk")
    return (
      <section class="section" aria-labelledby="start">
        <h2 id="start">Dial for pass 1</h2>
        <NoSetting advice={advice} tooMuch="It would put down more than the target." />
      </section>
    );
  const write = (n: number) => writeDial(n, spreader.dial.step);
  const likely = sayLikely(left_kg);
  return (
    <section class="section" aria-labelledby="start">
      <h2 id="start">Dial for pass 1</h2>
      <div class="spread__dial">
        <Figure size="big" label="Set to" value={write(at)} working={answer.working} />
        <DialDrawing
          {...spreader.dial}
          at={at}
          write={write}
          {...(dial_likely ? { range: dial_likely } : {})}
        />
      </div>
      <WhySetting said={answer.value} write={write} />
      <div class="figures">
        <Figure
          label="Left after pass 1"
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
      <p class="quiet small">Pace and damp change the rate. Check the hopper on the way.</p>
    </section>
  );
}
