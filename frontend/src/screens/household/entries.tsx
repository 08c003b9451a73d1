import { useState } from "preact/hooks";
import { dateTime } from "../../format";
import { household, log } from "../../models";
import { syncNow } from "../../models/sync";
import { Button, Notice, Sheet, showToast } from "../../parts";
import { discardParked, type ParkedRow, sendParkedAgain } from "../../store";
import type { Standing } from "../../store/types";
import { sayRecord } from "./says";

/** The whole truth about syncing in one sentence. */
function sayWhere({ state, waiting, trouble }: Standing): string {
  const kept = waiting === 1 ? "1 entry waits on this phone" : `${waiting} entries wait on this phone`;
  switch (state) {
    case "saved":
      return "Everything is saved on this phone and sent.";
    case "sending":
      return `${kept} and ${waiting === 1 ? "is" : "are"} being sent now.`;
    case "sign_in":
      return `${waiting ? `${kept}. ` : ""}The server wants you to sign in again; nothing is lost meanwhile.`;
    case "offline":
      return waiting
        ? `No signal. ${kept}; they go out by themselves.`
        : "No signal. Everything entered here was sent before.";
    case "update":
      return `This app is too old to send; close it and open it again to update it. ${waiting ? `${kept} until then. ` : ""}Others’ entries still come in.`;
    case "trouble":
      return `${trouble ?? "Sending did not work."} ${waiting ? `${kept} until it does.` : ""}`;
    default:
      return `${kept} to be sent.`;
  }
}

export function Entries() {
  const standing = household.standing.value;
  return (
    <section class="section" aria-labelledby="standing">
      <h2 id="standing">Where entries stand</h2>
      <p role="status">{sayWhere(standing)}</p>
      {standing.lastSync ? <p class="quiet">Last in touch {dateTime(standing.lastSync)}.</p> : null}
      {standing.persisted === false ? (
        <p class="quiet">
          The browser has not promised to keep this phone’s store. Installing the app helps; so does sending
          what waits.
        </p>
      ) : null}
      <div class="row">
        {standing.state === "sign_in" ? (
          <Button tone="signal" href="/enter?again">
            Sign in again
          </Button>
        ) : null}
        <Button onClick={syncNow}>Try to send now</Button>
      </div>
      <Pending />
      {standing.parked.length ? <Parked rows={standing.parked} /> : null}
    </section>
  );
}

function Pending() {
  const rows = household.pending.value;
  if (!rows.length) return null;
  return (
    <details>
      <summary>What waits ({rows.length})</summary>
      <ul class="lines">
        {rows.map((row) => (
          <li key={row.key} class="line">
            {sayRecord(row.t, row.id, row, log.nameOf)}
          </li>
        ))}
      </ul>
    </details>
  );
}

function Parked({ rows }: { rows: readonly ParkedRow[] }) {
  const [dropping, setDropping] = useState<ParkedRow | null>(null);
  async function drop(): Promise<void> {
    if (dropping) await discardParked(dropping);
    setDropping(null);
  }
  async function again(row: ParkedRow): Promise<void> {
    await sendParkedAgain(row);
    showToast({ text: "It will be tried once more." });
  }
  return (
    <Notice
      kind="warn"
      title={rows.length === 1 ? "One entry was set aside" : `${rows.length} entries were set aside`}
    >
      <p>They could not be taken into the book as they are. Nothing of them is lost.</p>
      <ul class="lines">
        {rows.map((row) => (
          <li key={row.op} class="stack stack--tight">
            <strong>
              {row.m.map((one) => sayRecord(one.t, one.id, undefined, log.nameOf, one)).join(", ")}
            </strong>
            <span>{row.why.message}</span>
            {Object.entries(row.why.fields ?? {}).map(([field, says]) => (
              <span key={field} class="small">
                {says}
              </span>
            ))}
            <span class="row">
              <Button onClick={() => again(row)}>Try again</Button>
              <Button tone="quiet" onClick={() => setDropping(row)}>
                Throw away
              </Button>
            </span>
          </li>
        ))}
      </ul>
      <Sheet
        open={dropping !== null}
        onClose={() => setDropping(null)}
        title="Throw this away?"
        actions={
          <>
            <Button onClick={() => setDropping(null)}>Keep it</Button>
            <Button tone="danger" onClick={drop}>
              Throw away
            </Button>
          </>
        }
      >
        <p>
          It was never taken into the book. Once thrown away it cannot be brought back; the export below still
          holds it until then.
        </p>
      </Sheet>
    </Notice>
  );
}
