import { clock, weekday } from "../../../format";
import { units } from "../../../platform/session/session";
import type { Entry } from "../../../records/entries";
import { Button } from "../../../ui/parts";
import { log } from "../model";
import { EntryLine } from "../screens/line";

const SHOWN = 5;

/** What this phone has not yet got rid of: saved here, on its way to the others. */
export function Waiting() {
  const waiting = log.waiting.value;
  if (!waiting.length) return null;
  return (
    <section class="section" aria-labelledby="waiting">
      <h2 id="waiting">Waiting to be sent</h2>
      <p class="quiet">Saved on this phone. They send when you have a signal.</p>
      <EntryList entries={waiting.slice(0, SHOWN)} />
      {waiting.length > SHOWN ? <Button href="/household">All {waiting.length} waiting</Button> : null}
    </section>
  );
}

export function Latest() {
  const latest = log.latest.value;
  if (!latest.length) return null;
  return (
    <section class="section" aria-labelledby="latest">
      <h2 id="latest">Latest entries</h2>
      <EntryList entries={latest} />
    </section>
  );
}

function EntryList({ entries }: { entries: readonly Entry[] }) {
  return (
    <ul class="lines">
      {entries.map((entry) => (
        <EntryLine
          key={entry.id}
          entry={entry}
          when={`${weekday(entry.at)}, ${clock(entry.at, units.value)}`}
        />
      ))}
    </ul>
  );
}
