import { useState } from "preact/hooks";
import { dateTime } from "../../../../format";
import { former, units } from "../../../../platform/session/session";
import { discardParked, type ParkedRow, sendParkedAgain } from "../../../../platform/store";
import { nameOf } from "../../../../records/log/named";
import { Button, Notice, orSay, showToast } from "../../../../ui/parts";
import { isPending } from "../../model/rejected";
import { Ask } from "../ask";
import { sayItems } from "../text";

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
      <h2 id="aside">Needs fixing ({rows.length})</h2>
      <p class="quiet">These could not be added yet. Nothing is lost.</p>
      <ul class="lines">
        {rows.map((row) => (
          <OneAside key={row.op} row={row} onDrop={() => setDropping(row)} />
        ))}
      </ul>
      <Ask
        title={dropping ? "Discard this?" : undefined}
        yes="Discard"
        no="Keep it"
        onYes={drop}
        onNo={() => setDropping(undefined)}
      >
        <p>
          {dropping ? `${sayItems(dropping.m, nameOf)}. ` : ""}
          {dropping && isPending(dropping)
            ? "It is removed from this phone. The keeper can still accept or decline it."
            : "It was never added. Once discarded it cannot be brought back. To keep a copy, use “Export everything” first."}
        </p>
      </Ask>
    </section>
  );
}

function OneAside({ row, onDrop }: { row: ParkedRow; onDrop: () => void }) {
  const what = sayItems(row.m, nameOf);
  const held = isPending(row);
  async function again(): Promise<void> {
    if (await orSay(() => sendParkedAgain(row))) showToast({ text: "Sent again." });
  }
  return (
    <li class="stack stack--tight entry-card">
      <strong>{what}</strong>
      <span class="line__facts">
        {held ? "To review" : row.where === "parked" ? "Not added by the server" : "Could not be sent"} since{" "}
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
          <Button href={`/household/entries/${row.op}`} label={`Fix: ${what}`}>
            Fix
          </Button>
        )}
        {held && former.value ? null : (
          <Button onClick={again} label={`Send again: ${what}`}>
            Send again
          </Button>
        )}
        <Button tone="quiet" onClick={onDrop} label={`Discard: ${what}`}>
          Discard
        </Button>
      </div>
    </li>
  );
}
