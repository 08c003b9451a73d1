import type { FunctionComponent } from "preact";
import { useState } from "preact/hooks";
import { clock, daysAgo, weekday } from "../../../format";
import { today as day } from "../../../platform/session/clock";
import { units } from "../../../platform/session/session";
import { entryKinds } from "../../../records/log/registry";
import { Button, Empty, Page, PlaceActions } from "../../../ui/parts";
import { lateSheet } from "../../../ui/parts/late";
import { log } from "../model";
import type { Day } from "../model/log";
import type { SheetState } from "./entry-sheet";
import { Filters } from "./filters";
import { EntryLine } from "./line";

/** Entries drawn at once, to the end of a day; more on request, so that years of entries open as fast as a week. */
const ENTRIES_A_LEAF = 60;

function firstDays(days: readonly Day[], most: number): readonly Day[] {
  let entries = 0;
  const last = days.findIndex((one) => {
    entries += one.entries.length;
    return entries >= most;
  });
  return last < 0 ? days : days.slice(0, last + 1);
}

/** What stands in the place of a kind where the table is asked for. */
const TABLE = "table";
const SaveTable = lateSheet(() => import("./save-table").then((found) => found.SaveTable));

/** One for each kind of entry that is added here; the sheets are fetched when first opened. */
let waysKept: readonly { kind: string; button: string; Sheet: FunctionComponent<SheetState> }[] | undefined;

function ways() {
  waysKept ??= entryKinds().flatMap((one) => {
    const sheet = () => import("./entry-sheet").then(({ entrySheet }) => entrySheet(one));
    return one.add ? [{ kind: one.kind, button: one.add.button, Sheet: lateSheet(sheet) }] : [];
  });
  return waysKept;
}

export function LogPage() {
  const [leaves, setLeaves] = useState(1);
  const [adding, setAdding] = useState("");
  const days = log.days.value;
  const shown = firstDays(days, leaves * ENTRIES_A_LEAF);
  return (
    <Page title="Log" actions={<PlaceActions />}>
      <div class="halves">
        {ways().map(({ kind, button }) => (
          <Button key={kind} onClick={() => setAdding(kind)}>
            {button}
          </Button>
        ))}
      </div>
      {log.entries.value.length || days.length ? <Filters /> : null}
      {log.loaded.value && !days.length ? <Nothing /> : null}
      {shown.map((one) => (
        <DayOfLog key={one.day} {...one} />
      ))}
      {days.length > shown.length ? <Button onClick={() => setLeaves(leaves + 1)}>Show older</Button> : null}
      {log.loaded.value && log.entries.value.length ? (
        <div>
          <Button onClick={() => setAdding(TABLE)}>Save as a table</Button>
        </div>
      ) : null}
      <SaveTable open={adding === TABLE} onClose={() => setAdding("")} />
      {ways().map(({ kind, Sheet }) => (
        <Sheet key={kind} open={adding === kind} onClose={() => setAdding("")} />
      ))}
    </Page>
  );
}

function DayOfLog({ day: iso, entries }: Day) {
  const ago = daysAgo(iso, day());
  const year = iso.slice(0, 4) === day().slice(0, 4) ? "" : ` ${iso.slice(0, 4)}`;
  return (
    <section class="section" aria-label={weekday(iso) + year}>
      <h2 class="row row--ends">
        <span>
          {weekday(iso)}
          {year}
        </span>
        <span class="small quiet">{ago}</span>
      </h2>
      <ul class="lines">
        {entries.map((entry) => (
          <EntryLine key={entry.id} entry={entry} when={clock(entry.at, units.value)} />
        ))}
      </ul>
    </section>
  );
}

function Nothing() {
  if (log.filtered.value) return <p>No entries match these filters.</p>;
  return (
    <Empty title="No entries yet" action={<Button href="/">Go to Today</Button>}>
      <p>Mowing and spreading are logged for you. Add what you notice on the grass any time.</p>
    </Empty>
  );
}
