import "./yard.css";
import { useEffect } from "preact/hooks";
import { dateTime, daysBetween, isoDay } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { speech } from "../../../../platform/session/speech";
import { useWakeLock } from "../../../../platform/wake";
import { writeDial } from "../../../../records/products";
import { PassSwatch } from "../../../../ui/drawing";
import { Button, Notice, Page, Standing as Sent } from "../../../../ui/parts";
import { SpeechSwitch } from "../../../../ui/parts/speech-switch";
import { spreading } from "../../model";
import type { PassOnFoot, Plan } from "../../model/types";
import type { Standing } from "../../model/yard/rows";
import { ClearHere } from "../before/keep-clear";
import { ActionRefused } from "../bits";
import { LevelNow } from "./level";
import { YardMore } from "./more";
import { Numbers, sayRow, YardPlan } from "./strip";

/** The screen in the yard: read at arm's length, in the sun, with gloves on. */
export function YardStep() {
  const { plan, pass, stopped_at } = spreading.draft.value ?? {};
  const at = spreading.standing.value;
  if (!plan || !pass || !at) return null;
  const of = Math.max(plan.passes, pass.number);
  return (
    <div class="yard">
      <SaySetOff key={pass.id} plan={plan} pass={pass} at={at} />
      <Page
        title={`Pass ${pass.number} of ${of}`}
        back="/"
        backLabel="Pause and go to Today"
        actions={
          <>
            <Sent brief />
            <SpeechSwitch />
            <PassSwatch pass={pass.number} size={44} />
          </>
        }
      >
        {stopped_at ? (
          <Stopped stopped_at={stopped_at} at={at} />
        ) : (
          <div class="yard__front">
            <Numbers plan={plan} pass={pass} at={at} />
            <YardPlan plan={plan} pass={pass} at={at} />
            <ClearHere zone_id={at.zone?.id} />
            <LevelNow at={at} />
            <Onward plan={plan} pass={pass} at={at} />
          </div>
        )}
        <ActionRefused />
        <YardMore plan={plan} pass={pass} at={at} />
        <Awake />
      </Page>
    </div>
  );
}

interface OnwardProps {
  plan: Plan;
  pass: PassOnFoot;
  at: Standing;
}

/** Whether there are rows to count; one row alone is the pass itself. */
export function counts({ of }: Standing): boolean {
  return of > 1;
}

/** What is said after a count: the dial, and where to go now. */
export function sayNext(plan: Plan, pass: PassOnFoot, at: Standing): string {
  const dial = `Dial ${writeDial(pass.dial, plan.dial.step)}.`;
  if (!at.row) return at.of ? "All strips done." : dial;
  if (!counts(at)) return dial;
  const where = at.new_zone && at.zone ? ` Now ${at.zone.name}.` : "";
  return `${dial}${where} Strip ${at.done + 1} of ${at.of}.`;
}

/** Before the first step: dial and strip are said, and again where the dial is turned. */
function SaySetOff({ plan, pass, at }: OnwardProps) {
  const words = at.done === 0 ? sayNext(plan, pass, at) : "";
  useEffect(() => {
    if (words) speech.say(words);
  }, [words]);
  return null;
}

/** One short buzz for a strip, three for another zone or the end; nothing where the phone has none. */
function buzz(at: Standing): void {
  const { vibrate } = navigator as Partial<Navigator>;
  vibrate?.call(navigator, !at.row || at.new_zone ? [70, 60, 70, 60, 70] : [70]);
}

async function countOne(): Promise<void> {
  if (!(await spreading.count())) return;
  const { plan, pass } = spreading.draft.value ?? {};
  const now = spreading.standing.value;
  if (!plan || !pass || !now) return;
  buzz(now);
  speech.say(sayNext(plan, pass, now));
}

/** The one big button: a strip walked, or the pass walked once they all are. */
function Onward({ pass, at }: OnwardProps) {
  const { row } = at;
  if (!row || !counts(at))
    return (
      <div class="yard__foot">
        <Button
          tone="signal"
          size="yard"
          wide
          busy={spreading.resting.value}
          onClick={() => void spreading.endPass()}
        >
          Pass {pass.number} done
        </Button>
      </div>
    );
  return (
    <div class="yard__foot">
      <Button tone="signal" size="yard" wide busy={spreading.resting.value} onClick={() => void countOne()}>
        {sayRow(at)} done
      </Button>
    </div>
  );
}

/** A job taken up another evening: what stands in the hopper may not be what was left in it. */
function Stopped({ stopped_at, at }: { stopped_at: string; at: Standing }) {
  const days = daysBetween(stopped_at, isoDay());
  const since = days <= 0 ? "earlier today" : days === 1 ? "yesterday" : `${days} days ago`;
  const where = counts(at) && at.done > 0 ? ` after strip ${at.done} of ${at.of}` : "";
  return (
    <div class="stack">
      <Notice title={`Stopped ${since}${where}`}>
        <p>
          On {dateTime(stopped_at, units.value)}.{" "}
          {days > 0
            ? "Weigh what is left first. Some may have caked or spilled. Sieve out lumps."
            : "Everything is saved."}
        </p>
      </Notice>
      <div class="spread__on">
        <Button tone="signal" size="yard" wide onClick={() => void spreading.resume()}>
          {counts(at) && at.row ? `Continue at strip ${at.done + 1}` : "Continue the pass"}
        </Button>
        {spreading.canCheck.value ? (
          <Button size="yard" wide onClick={() => void spreading.openCheck()}>
            Check what is left first
          </Button>
        ) : null}
      </div>
    </div>
  );
}

function Awake() {
  const wake = useWakeLock();
  if (wake === "asking") return null;
  return (
    <p class="small" role="status">
      {wake === "awake" ? "The screen stays on." : "Your phone may lock. Unlock it and carry on here."}
    </p>
  );
}
