import { Minus, Plus } from "lucide-preact";
import { useState } from "preact/hooks";
import { useLocation } from "wouter-preact";
import { mass, readNumber } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { writeDial } from "../../../../records/products";
import { clicked, DialDrawing } from "../../../../ui/drawing";
import { Button, CheckField, NumberField, offerUndo } from "../../../../ui/parts";
import { spreading } from "../../model";
import type { PassOnFoot, Plan } from "../../model/types";
import type { Standing } from "../../model/yard/rows";
import { sayLikely } from "../bits";
import { useLeave } from "../on-trail";
import { overFull } from "./level";
import { Pour } from "./pour";
import { sayTracks } from "./strip";

interface Props {
  plan: Plan;
  pass: PassOnFoot;
  at: Standing;
}

/** Everything that is not the next strip, under the fold: out of a thumb's way while walking. */
export function YardMore({ plan, pass, at }: Props) {
  const holds_kg = overFull(at.expected_kg);
  return (
    <div class="stack">
      <Turn plan={plan} pass={pass} />
      <ul class="yard__notes">
        <li>{sayTracks(pass)}</li>
        <li>Walk first, then open the gate. Shut it before you stop. Keep a steady pace.</li>
        <li>{pass.why}</li>
        {pass.expect ? <li>{sayEnd(pass)}</li> : null}
        {holds_kg === null ? null : (
          <li>
            The hopper holds {mass(holds_kg, units.value).text}. The rest is in the bag. Enter what is still
            in the bag under “Add product” to see the level.
          </li>
        )}
      </ul>
      <ByHand at={at} key={at.zone?.id ?? ""} />
      <CheckField
        label="The product is damp or lumpy"
        hint="Dry it or sieve out lumps. Don’t open the dial wider. This pass won’t count toward later dials."
        checked={pass.damp}
        onInput={(damp) => void spreading.setDamp(damp)}
      />
      <Pour pass={pass} />
      <Button size="yard" wide onClick={() => void spreading.ranOut()}>
        It ran out
      </Button>
      {at.of > 1 && at.row ? (
        <Button size="yard" wide onClick={() => void spreading.endPass()}>
          Pass {pass.number} done
        </Button>
      ) : null}
      <StopForTonight />
      <NothingDown />
    </div>
  );
}

function sayEnd({ expect, number }: PassOnFoot): string {
  if (!expect) return "";
  const { mid, range } = sayLikely(expect);
  return `Left after pass ${number}: ${mid}, likely ${range}.`;
}

/** Everything stands; Today says where. */
function StopForTonight() {
  const [, go] = useLocation();
  async function stop(): Promise<void> {
    if (await spreading.stop()) go("/");
  }
  if (spreading.draft.value?.stopped_at) return null;
  return (
    <Button size="yard" wide onClick={() => void stop()}>
      Stop for today
    </Button>
  );
}

/** The way out before anything has gone down: no pass is written, since there was none. */
function NothingDown() {
  const leave = useLeave();
  if (!spreading.untouched.value) return null;
  if (spreading.passes.value.length)
    return spreading.canGoBack.value ? (
      <Button size="yard" wide onClick={() => void spreading.back()}>
        Back to pass {spreading.passes.value.length}: nothing put down
      </Button>
    ) : null;
  async function end(): Promise<void> {
    await leave();
    const last = await spreading.putAway();
    const again = async () => last && spreading.takeUpAgain(last);
    offerUndo("Job ended. Nothing is in the log.", again);
  }
  return (
    <Button size="yard" wide onClick={() => void end()}>
      End this job: nothing put down
    </Button>
  );
}

/** The setting by hand, before anything is walked at it; after that, a check changes it. */
function Turn({ plan, pass }: { plan: Plan; pass: PassOnFoot }) {
  const write = (n: number) => writeDial(n, plan.dial.step);
  const likely = pass.suggested?.dial === pass.dial ? pass.suggested.dial_likely : null;
  const drawn = (
    <DialDrawing {...plan.dial} at={pass.dial} write={write} {...(likely ? { range: likely } : {})} />
  );
  if (!spreading.canTurn.value) return drawn;
  const move = (by: number) => void spreading.setDial(clicked(plan.dial, pass.dial, by));
  return (
    <section class="yard__turn" aria-label="Change the dial">
      <Button size="yard" label="One click lower" onClick={() => move(-1)}>
        <Minus aria-hidden="true" />
      </Button>
      {drawn}
      <Button size="yard" label="One click higher" onClick={() => move(1)}>
        <Plus aria-hidden="true" />
      </Button>
    </section>
  );
}

/** As many as the engine cuts a zone into. */
const MOST_STRIPS = 1000;

/** A zone without outline: its strips, where the person has counted them. */
function ByHand({ at }: { at: Standing }) {
  const { zone } = at;
  const set = zone ? spreading.draft.value?.strips[zone.id] : undefined;
  const [text, type] = useState(set === undefined ? "" : String(set));
  if (!zone || zone.outline || !at.row) return null;
  const read = readNumber(text);
  const walked = at.in_zone - 1;
  const good = read.ok && Number.isInteger(read.value) && read.value > walked && read.value <= MOST_STRIPS;
  const wrong = text.trim() !== "" && !good;
  return (
    <div class="stack">
      <NumberField
        label={`Strips in ${zone.name}`}
        whole
        hint="No outline here. Enter the number of strips to count them off."
        value={text}
        onInput={type}
        error={wrong ? `Enter a whole number from ${walked + 1} to ${MOST_STRIPS}.` : undefined}
      />
      <Button disabled={!good} onClick={() => void spreading.setStrips(zone.id, read.ok ? read.value : null)}>
        Use this number
      </Button>
    </div>
  );
}
