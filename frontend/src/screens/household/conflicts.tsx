import { dateTime } from "../../format";
import { household, log } from "../../models";
import type { Conflict } from "../../models/household";
import { timeOfHlc } from "../../models/moment";
import { Button, Notice, showToast } from "../../parts";
import { sayGroup, sayRecord } from "./says";

/** What two phones wrote apart: shown to everybody until somebody chooses. */
export function Conflicts() {
  const conflicts = household.conflicts.value;
  if (!conflicts.length) return null;
  return (
    <section class="section" aria-labelledby="conflicts">
      <h2 id="conflicts">Written twice, differently</h2>
      <p class="quiet">
        Two phones changed the same thing while apart. One of the two stands; the other was kept. Choose which
        is right.
      </p>
      {conflicts.map((conflict) => (
        <OneConflict key={conflict.id} conflict={conflict} />
      ))}
    </section>
  );
}

function OneConflict({ conflict }: { conflict: Conflict }) {
  const { t, recordId, record, group, lost, standing } = conflict;
  async function choose(write: () => Promise<unknown>, says: string): Promise<void> {
    try {
      await write();
      showToast({ text: says });
    } catch {
      showToast({ text: "This could not be stored on this phone. Nothing was changed.", seconds: 10 });
    }
  }
  const who = [log.nameOf(lost.by), dateTime(timeOfHlc(lost.hlc) ?? "")].filter(Boolean).join(", ");
  return (
    <Notice kind="warn" title={sayRecord(t, recordId, record, log.nameOf)}>
      <div class="columns columns--close">
        <Side title="This stands" facts={sayGroup(t, group, standing)} />
        <Side title={`The other one${who ? ` (${who})` : ""}`} facts={sayGroup(t, group, lost.value)} />
      </div>
      <div class="row">
        <Button onClick={() => choose(() => household.keepThis(conflict), "Kept as it stands.")}>
          Keep what stands
        </Button>
        <Button onClick={() => choose(() => household.useOther(conflict), "The other one stands now.")}>
          Use the other one
        </Button>
      </div>
    </Notice>
  );
}

function Side({ title, facts }: { title: string; facts: readonly [string, string][] }) {
  return (
    <div>
      <h3>{title}</h3>
      <dl class="facts">
        {facts.map(([name, value]) => [
          <dt key={`${name}-t`}>{name}</dt>,
          <dd key={`${name}-d`}>{value}</dd>,
        ])}
      </dl>
    </div>
  );
}
