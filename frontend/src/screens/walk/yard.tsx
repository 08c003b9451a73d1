import { Minus, Plus } from "lucide-preact";
import { clicked, DialDrawing, PassSwatch } from "../../drawing";
import { dial, mass } from "../../format";
import { walk } from "../../models";
import { units } from "../../models/session";
import type { PassOnFoot, Plan } from "../../models/walk-types";
import { Button, Page } from "../../parts";
import { sayLikely } from "./bits";
import { useWakeLock } from "./wake";

/** How the tracks of a pass lie; university trials behind it are in the reference tables (osu817_14). */
function sayTracks(number: number): string {
  if (number === 1) return "One strip round the edge first, then to and fro.";
  if (number === 2) return "Same way again, half a swath over: between the first tracks.";
  return "Across the earlier tracks.";
}

/** The screen in the yard: read at arm's length, in the sun, with gloves on. */
export function YardStep() {
  const { plan, pass } = walk.draft.value ?? {};
  if (!plan || !pass) return null;
  const of = Math.max(plan.passes, pass.number);
  return (
    <div class="yard">
      <Page title={`Pass ${pass.number} of ${of}`} back="/" backLabel="Put the walk aside and go to Today">
        <DialNumber plan={plan} pass={pass} />
        <ShouldBeLeft plan={plan} pass={pass} />
        <div class="yard__pass">
          <PassSwatch pass={pass.number} size={48} />
          <p>{sayTracks(pass.number)}</p>
        </div>
        <p>Start walking, then open the gate; shut it before you stop. Keep one pace.</p>
        <Awake />
        <div class="yard__foot">
          <Button tone="signal" size="walk" wide onClick={() => void walk.go("left")}>
            Pass {pass.number} walked
          </Button>
        </div>
      </Page>
    </div>
  );
}

/** The setting, as big as the screen takes it, and the dial it stands on. */
function DialNumber({ plan, pass }: { plan: Plan; pass: PassOnFoot }) {
  const write = (n: number) => dial(n, plan.dial.step).text;
  const shown = write(pass.dial);
  const move = (by: number) => void walk.setDial(clicked(plan.dial, pass.dial, by));
  return (
    <section class="yard__dial" aria-label="Dial">
      <div class="yard__number">
        <Button size="walk" label="One click lower" onClick={() => move(-1)}>
          <Minus aria-hidden="true" />
        </Button>
        <output
          class={`yard__numeral${shown.length > 3 ? " is-long" : ""}`}
          aria-label={`Set the dial to ${shown}`}
        >
          {shown}
        </output>
        <Button size="walk" label="One click higher" onClick={() => move(1)}>
          <Plus aria-hidden="true" />
        </Button>
      </div>
      <DialDrawing {...plan.dial} at={pass.dial} write={write} />
      <p>{pass.why}</p>
    </section>
  );
}

function ShouldBeLeft({ pass }: { plan: Plan; pass: PassOnFoot }) {
  const had = mass(pass.start_kg, units.value).text;
  if (!pass.expect)
    return (
      <dl class="yard__facts">
        <dt>In hopper and bag now</dt>
        <dd>{had}</dd>
      </dl>
    );
  const { mid, range } = sayLikely(pass.expect);
  return (
    <dl class="yard__facts">
      <dt>In hopper and bag now</dt>
      <dd>{had}</dd>
      <dt>Left after this pass</dt>
      <dd>
        {mid} <span class="yard__likely">likely {range}</span>
      </dd>
    </dl>
  );
}

function Awake() {
  const wake = useWakeLock();
  if (wake === "asking") return null;
  return (
    <p class="small" role="status">
      {wake === "awake"
        ? "The screen stays awake on this page."
        : "This phone may lock by itself. Nothing is lost: unlock it and this page stands as it was."}
    </p>
  );
}
