import { walk } from "../../models";
import { sayScorched, scorchedOf } from "../../models/walk-scorched";
import { Notice } from "../../parts";

/** Ground that got far more than the label's rate, by name: nothing more goes there, and it wants water today. */
export function ScorchedGround() {
  const { plan, pass } = walk.draft.value ?? {};
  const found = plan ? scorchedOf(walk.passes.value, pass) : [];
  if (!plan || !found.length) return null;
  return (
    <Notice kind="warn" title="Nothing more goes here">
      <ul>
        {found.map((one) => (
          <li key={`${one.pass}.${one.from}`}>{sayScorched(one, plan)}</li>
        ))}
      </ul>
      <p>It got over one and a half times the label’s rate. Shut the gate over it. Water it heavily today.</p>
    </Notice>
  );
}
