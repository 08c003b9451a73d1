/** The steps of the plan as it is kept; a tap on one locks it, puts it off or removes it. */
import { useState } from "preact/hooks";
import { dayMonth } from "../../../../format";
import { store } from "../../../../records/live";
import { Button, orUndo, Sheet } from "../../../../ui/parts";
import { steps } from "../../model/plan";
import type { Kept } from "../../model/plan/book";
import { change } from "../../model/plan/stepping";
import { sayJob } from "../jobs";
import { sayKept } from "./words";

export function KeptSteps() {
  const [open, setOpen] = useState<string>();
  const chosen = steps.value.find(({ id }) => id === open);
  return (
    <>
      <ol class="lines" aria-label="Steps of the plan">
        {steps.value.map((step) => (
          <li key={step.id}>
            <button type="button" class="line" aria-haspopup="dialog" onClick={() => setOpen(step.id)}>
              <StepWords step={step} />
            </button>
          </li>
        ))}
      </ol>
      <Sheet open={!!chosen} onClose={() => setOpen(undefined)} title={chosen ? sayJob(chosen) : ""}>
        {chosen ? <StepActions step={chosen} close={() => setOpen(undefined)} /> : null}
      </Sheet>
    </>
  );
}

function StepWords({ step }: { step: Kept }) {
  const { from_on, to_on, locked, state } = step;
  return (
    <span class="line__main">
      <span class="line__title">
        {sayJob(step)} {locked ? <span class="tag">Locked</span> : null}
        {state === "done" ? <span class="tag tag--good">Done</span> : null}
        {state === "put_off" ? <span class="tag tag--warn">Put off</span> : null}
      </span>
      <span class="line__facts">
        {dayMonth(from_on)} to {dayMonth(to_on)}
        <br />
        {sayKept(step)}
      </span>
    </span>
  );
}

function StepActions({ step, close }: { step: Kept; close: () => void }) {
  const act = async (what: Parameters<typeof change>[2], says: string) => {
    await orUndo(() => change(store, step, what), says);
    close();
  };
  return (
    <div class="stack">
      <p>
        {dayMonth(step.from_on)} to {dayMonth(step.to_on)}. {sayKept(step)}.
      </p>
      {step.state === "done" ? null : (
        <>
          <Button
            onClick={() => void act(step.locked ? "unlock" : "lock", step.locked ? "Unlocked." : "Locked.")}
          >
            {step.locked ? "Unlock" : "Lock in this week"}
          </Button>
          <Button
            onClick={() =>
              void (step.state === "put_off" ? act("plan", "Back in the plan.") : act("put_off", "Put off."))
            }
          >
            {step.state === "put_off" ? "Put it back" : "Put off"}
          </Button>
          <p class="quiet">A locked step stays when you plan again. One put off gets a new week.</p>
        </>
      )}
      <Button tone="danger" onClick={() => void act("remove", "Step removed.")}>
        Remove
      </Button>
    </div>
  );
}
