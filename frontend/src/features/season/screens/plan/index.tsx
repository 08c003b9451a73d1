/** Plan the year: the steps that are kept, the way to plan, and the plan that was found beside them. */
import { useEffect, useState } from "preact/hooks";
import { sayRefusal } from "../../../../forms/refusal";
import { units } from "../../../../platform/session/session";
import { Button, Notice } from "../../../../ui/parts";
import { climateKnown, loaded, planning, steps } from "../../model/plan";
import type { Trouble } from "../../model/plan/planning";
import { FoundPlan } from "./found";
import { KeptSteps } from "./kept";
import { LackingList } from "./lacking";
import { WhatIf } from "./what-if";
import { WishesSheet } from "./wishes";
import { sayProgress, sayRule, saySure } from "./words";

export function PlanYear() {
  const [open, setOpen] = useState(false);
  const { busy, shown, trouble } = planning;
  // Nothing goes on being searched for that nobody waits for.
  useEffect(() => () => planning.clear(), []);
  if (!loaded.value) return null;
  const some = steps.value.length > 0;
  return (
    <section class="section" aria-labelledby="plan">
      <h2 id="plan">Plan</h2>
      {some ? <KeptSteps /> : <p>No steps yet. The plan says what to do when, and what to buy.</p>}
      {climateKnown.value ? (
        <div class="row">
          <Button tone={shown.value ? "plain" : "signal"} onClick={() => setOpen(true)}>
            {some ? "Plan again" : "Plan the year"}
          </Button>
          {some ? <WhatIf /> : null}
        </div>
      ) : (
        <Notice title="Add your climate first.">
          <p>Windows of the year go by how warm your months are.</p>
          <Button href="/weather">Open the weather</Button>
        </Notice>
      )}
      <Search />
      {trouble.value && !busy.value ? <Told trouble={trouble.value} /> : null}
      {shown.value ? <FoundPlan shown={shown.value} /> : null}
      <WishesSheet open={open} onClose={() => setOpen(false)} />
    </section>
  );
}

/** How far the search has come, in one sentence that is heard as it changes, and the way to end it. */
function Search() {
  const { busy, shown, progress, stop } = planning;
  const says = busy.value
    ? progress.value
      ? `Looking for a better plan. ${sayProgress(progress.value)}`
      : shown.value
        ? "Looking week by week for a better plan."
        : "Looking for a plan."
    : shown.value
      ? saySure(shown.value.plan)
      : "";
  return (
    <div class="stack stack--tight">
      <p role="status">{says}</p>
      {busy.value ? (
        <div>
          <Button onClick={stop}>Stop here</Button>
        </div>
      ) : null}
    </div>
  );
}

function Told({ trouble }: { trouble: Trouble }) {
  switch (trouble.kind) {
    case "refused":
      return <Notice kind="bad">{sayRefusal(trouble.error, units.value)}</Notice>;
    case "no_solver":
      return (
        <Notice kind="warn" title="The planner is not on this phone yet.">
          <p>Open this page once with a network. After that you can plan without one.</p>
        </Notice>
      );
    case "nothing_found":
      return <Notice kind="warn">No plan was found. Plan again and give it more time.</Notice>;
    case "nothing_to_plan":
      return (
        <>
          <Notice kind="warn">No zone can be planned yet.</Notice>
          <LackingList gathered={trouble.gathered} />
        </>
      );
    case "blocked":
      return (
        <Notice kind="warn" title="No plan can keep all of your wishes.">
          <p>It would work without these. Unlock a step, or change a wish.</p>
          <ul class="bullets">
            {trouble.gives.map(({ name, says }) => (
              <li key={name}>{sayRule(says, trouble.gathered)}</li>
            ))}
          </ul>
        </Notice>
      );
  }
}
