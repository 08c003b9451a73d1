import { Minus, Plus } from "lucide-preact";
import { clicked, DialDrawing, PassSwatch } from "../../drawing";
import { mass } from "../../format";
import { walk } from "../../models";
import { units } from "../../models/session";
import { writeDial } from "../../models/shed-facts";
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
      <Page
        title={`Pass ${pass.number} of ${of}`}
        back="/"
        backLabel="Put the walk aside and go to Today"
        actions={<PassSwatch pass={pass.number} size={44} />}
      >
        <DialNumber plan={plan} pass={pass} />
        <ShouldBeLeft pass={pass} />
        <DialDrawing {...plan.dial} at={pass.dial} write={(n) => writeDial(n, plan.dial.step)} />
        <ul class="yard__notes">
          <li>{sayTracks(pass.number)}</li>
          <li>Start walking, then open the gate; shut it before you stop. Keep one pace.</li>
          <li>{pass.why}</li>
        </ul>
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

/** The setting, as big as the screen takes it, a click either way beside it. */
function DialNumber({ plan, pass }: { plan: Plan; pass: PassOnFoot }) {
  const shown = writeDial(pass.dial, plan.dial.step);
  const move = (by: number) => void walk.setDial(clicked(plan.dial, pass.dial, by));
  return (
    <section class="yard__number" aria-label="Dial">
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
    </section>
  );
}

/** What is there now and what should be there after the pass. */
function ShouldBeLeft({ pass }: { pass: PassOnFoot }) {
  const likely = pass.expect && sayLikely(pass.expect);
  return (
    <dl class="yard__facts">
      <div>
        <dt>There is now</dt>
        <dd>{mass(pass.start_kg, units.value).text}</dd>
      </div>
      <div>
        <dt>Should be left</dt>
        <dd>{likely ? likely.mid : "not known"}</dd>
        {likely ? <dd class="yard__likely">likely {likely.range}</dd> : null}
      </div>
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
