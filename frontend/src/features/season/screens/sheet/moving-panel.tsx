/** What is being moved, where to, and what the rules say of it: told at once, taken only on purpose. */
import { useId } from "preact/hooks";
import { sayRefusal } from "../../../../forms/refusal";
import { today } from "../../../../platform/session/clock";
import { units } from "../../../../platform/session/session";
import { sayZones } from "../../../../records/log/named";
import { Button, Notice, offerUndo, orSay } from "../../../../ui/parts";
import { moving, sheet } from "../../model/sheet";
import type { Breach } from "../../model/sheet/moving";
import { sayJob } from "../jobs";
import { sayBreach, sayDays, sayWeeks } from "./words";

/** Takes the step to its new days, unless a rule speaks against them; the way back is offered. */
export async function takeIt(anyway = false): Promise<boolean> {
  const now = moving.picked.peek();
  if (!now) return false;
  if (!now.weeks) {
    moving.leave();
    return true;
  }
  const done = await orSay(() => moving.take(anyway));
  const kept = done?.value.kept;
  if (!kept) return false;
  offerUndo(`${sayJob(now.step)} moved to ${sayDays(now.from_on, now.to_on, today())}.`, kept.back);
  return true;
}

export function MovingPanel({ onDone }: { onDone?: (() => void) | undefined }) {
  const id = useId();
  const now = moving.picked.value;
  if (!now) return null;
  const { step, weeks, from_on, to_on, earlier_weeks, later_weeks } = now;
  const take = async (anyway: boolean) => {
    if (await takeIt(anyway)) onDone?.();
  };
  const leave = () => {
    moving.leave();
    onDone?.();
  };
  const breaches = moving.said.value?.value?.breaches;
  return (
    <section class="season-moving" aria-labelledby={id}>
      <h3 id={id}>Move: {sayJob(step)}</h3>
      <output aria-live="polite">
        <strong>{sayDays(from_on, to_on, today())}.</strong> {sayWeeks(weeks)}. <Verdict />
      </output>
      <div class="season-moving__acts">
        <Button disabled={weeks <= -earlier_weeks} onClick={() => moving.by(-1)}>
          Week earlier
        </Button>
        <Button disabled={weeks >= later_weeks} onClick={() => moving.by(1)}>
          Week later
        </Button>
        {moving.refused.value || breaches?.length ? (
          <Button tone="danger" disabled={!weeks} onClick={() => take(true)}>
            Move it anyway
          </Button>
        ) : (
          <Button tone="signal" disabled={!weeks} onClick={() => take(false)}>
            Move it here
          </Button>
        )}
        <Button tone="quiet" onClick={leave}>
          Cancel
        </Button>
      </div>
      <Broken />
    </section>
  );
}

/** In a sentence, so that it is seen and said at once; what allows what stands below the buttons. */
function Verdict() {
  const said = moving.said.value;
  if (!said) return <span>Checking the rules…</span>;
  if (said.error) return <span>{sayRefusal(said.error, units.value)}</span>;
  const { breaches, past } = said.value;
  const [first] = breaches;
  if (first)
    return (
      <span>
        {moving.refused.value ? "Not moved. " : ""}This breaks a rule. {first.says}
      </span>
    );
  return <span>{past ? "These days have passed." : "No rule speaks against it."}</span>;
}

function Broken() {
  const breaches = moving.said.value?.value?.breaches ?? [];
  if (!breaches.length) return null;
  return (
    <Notice kind="bad">
      <ul class="season-breaches">
        {breaches.map((one, at) => (
          <li key={`${one.job}-${one.rule}-${one.date}-${one.zones[0]}`}>
            <p>
              {at ? `${one.says} ` : ""}
              {ofOther(one)}
              {sayBreach(one, units.value)} {sayZones(one.zones)}.
            </p>
          </li>
        ))}
      </ul>
    </Notice>
  );
}

/** Another step that breaks it is named. */
function ofOther({ own, job }: Breach): string {
  const other = own ? undefined : sheet.kept.value.find(({ id }) => id === job);
  return other ? `${sayJob(other)} of ${sayDays(other.from_on, other.to_on, today())}: ` : "";
}
