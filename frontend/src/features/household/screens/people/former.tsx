import { former, session, switchHousehold } from "../../../../platform/session/session";
import { standing } from "../../../../platform/store";
import { Button, Notice } from "../../../../ui/parts";
import { household } from "../../model";
import { isPending } from "../../model/rejected";
import { countOf } from "../counts";
import { ExportButton } from "../entries/export";

/** On a removed person's own phone: what is so now, and what can still be done (S22). */
export function Former() {
  const { waiting, parked } = standing.value;
  const held = parked.filter(isPending).length;
  const others = session.value?.households ?? [];
  return (
    <div aria-live="polite">
      {former.value ? (
        <Notice kind="warn" title="You are no longer in this household">
          <p>
            You can still read and export {household.household.value.name} on this phone. Others’ entries no
            longer come in.
          </p>
          {held ? <p>{countOf(held, "entry is", "entries are")} with the keeper to review.</p> : null}
          {waiting ? (
            <p>
              {countOf(waiting, "entry waits", "entries wait")} here. With a signal, the keeper gets them to
              review.
            </p>
          ) : null}
          <p>If you are invited again, open the new link on this phone to carry on.</p>
          <div class="row">
            {others.map(({ id, name }) => (
              <Button key={id} onClick={() => switchHousehold(id)}>{`Open ${name}`}</Button>
            ))}
          </div>
          <ExportButton />
        </Notice>
      ) : null}
    </div>
  );
}
