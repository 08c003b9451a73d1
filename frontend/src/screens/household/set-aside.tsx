import { useState } from "preact/hooks";
import { dateTime } from "../../format";
import { log } from "../../models";
import { isHeld } from "../../models/parked";
import { former, units } from "../../models/session";
import { Button, Notice, orSay, showToast } from "../../parts";
import { discardParked, type ParkedRow, sendParkedAgain } from "../../store";
import { Ask } from "./ask";
import { sayItems } from "./says";

/** Entries that could not be taken as they are: each in words, with why, and what can be done about it. */
export function SetAside({ rows }: { rows: readonly ParkedRow[] }) {
  const [dropping, setDropping] = useState<ParkedRow | undefined>(undefined);
  async function drop(): Promise<void> {
    const row = dropping;
    setDropping(undefined);
    if (row) await orSay(() => discardParked(row));
  }
  if (!rows.length) return null;
  return (
    <section class="section" aria-labelledby="aside">
      <h2 id="aside">Set aside ({rows.length})</h2>
      <p class="quiet">These could not be taken into the book as they are. Nothing of them is lost.</p>
      <ul class="lines">
        {rows.map((row) => (
          <OneAside key={row.op} row={row} onDrop={() => setDropping(row)} />
        ))}
      </ul>
      <Ask
        title={dropping ? "Throw this away?" : undefined}
        yes="Throw away"
        no="Keep it"
        onYes={drop}
        onNo={() => setDropping(undefined)}
      >
        <p>
          {dropping ? `${sayItems(dropping.m, log.nameOf)}. ` : ""}
          {dropping && isHeld(dropping)
            ? "It goes from this phone; the keeper still has it to accept or decline."
            : "It was never taken into the book. Once thrown away it cannot be brought back; “Export everything” still holds it until then."}
        </p>
      </Ask>
    </section>
  );
}

function OneAside({ row, onDrop }: { row: ParkedRow; onDrop: () => void }) {
  const what = sayItems(row.m, log.nameOf);
  const held = isHeld(row);
  async function again(): Promise<void> {
    if (await orSay(() => sendParkedAgain(row))) showToast({ text: "It is sent once more." });
  }
  return (
    <li class="stack stack--tight entry-card">
      <strong>{what}</strong>
      <span class="line__facts">
        {held ? "Held" : row.where === "parked" ? "Set aside by the server" : "Could not be sent"} since{" "}
        {dateTime(row.at, units.value)}
      </span>
      <Notice kind="warn">
        <p>{row.why.message}</p>
        {Object.entries(row.why.fields ?? {})
          .filter(([, says]) => !row.why.message.includes(says))
          .map(([field, says]) => (
            <p key={field}>{says}</p>
          ))}
      </Notice>
      <div class="row">
        {held ? null : (
          <Button href={`/household/entries/${row.op}`} label={`Mend: ${what}`}>
            Mend
          </Button>
        )}
        {held && former.value ? null : (
          <Button onClick={again} label={`Send as it is: ${what}`}>
            Send as it is
          </Button>
        )}
        <Button tone="quiet" onClick={onDrop} label={`Throw away: ${what}`}>
          Throw away
        </Button>
      </div>
    </li>
  );
}
