/** Where entries stand: what waits, what was set aside, what was written twice, and how this phone keeps it all. */

import { dateTime } from "../../../../format";
import { former, units } from "../../../../platform/session/session";
import { heedGone } from "../../../../platform/store";
import type { Standing } from "../../../../platform/store/types";
import { syncNow } from "../../../../platform/sync/running";
import { nameOf } from "../../../../records/log/named";
import { Button, Notice, Page } from "../../../../ui/parts";
import { household } from "../../model";
import { countOf, sayCount } from "../counts";
import { Former } from "../people/former";
import { sayRecord } from "../text";
import { Conflicts } from "./conflicts";
import { ExportButton } from "./export";
import { SetAside } from "./rejected";

/** The whole truth about syncing in one sentence or two. */
export function sayWhere({ state, waiting, photosWaiting, trouble }: Standing, outside: boolean): string {
  const left = sayCount(waiting, photosWaiting);
  const one = waiting + photosWaiting === 1;
  const kept = `${left} ${one ? "waits" : "wait"} on this phone`;
  if (outside) return `Nothing more is shared with the household. ${left ? `${kept}.` : ""}`;
  switch (state) {
    case "saved":
      return left ? `${kept} to be sent.` : "Everything is saved on this phone and sent.";
    case "sending":
      return left ? `${kept} and ${one ? "is" : "are"} being sent now.` : "Checking for news now.";
    case "sign_in":
      return `${left ? `${kept}. ` : ""}Sign in again. The time ran out, or this phone was signed out from another one. Nothing is lost.`;
    case "offline":
      return left
        ? `No signal. ${kept}. ${one ? "It sends" : "They send"} when you have a signal.`
        : "No signal. Everything is already sent.";
    case "update":
      return `This app is too old to send. Close it and open it again to update. ${left ? `${kept} until then. ` : ""}Others’ entries still come in.`;
    case "trouble":
      return `${trouble ?? "Sending did not work."} ${left ? `${kept} until it does.` : ""}`;
    default:
      return `${kept} to be sent.`;
  }
}

export function EntriesPage() {
  const { standing, pending } = household;
  return (
    <Page title="Saved and sent" back="/household" backLabel="Back to the household" actions={null}>
      <Former />
      <Now standing={standing.value} />
      <SetAside rows={standing.value.parked} />
      <Conflicts />
      <Waiting rows={pending.value} />
      <Keeping standing={standing.value} />
    </Page>
  );
}

function Now({ standing }: { standing: Standing }) {
  return (
    <section class="section" aria-labelledby="now">
      <h2 id="now">Now</h2>
      <p role="status">{sayWhere(standing, former.value)}</p>
      {standing.gone ? (
        <Notice
          kind="bad"
          title={`${countOf(standing.gone, "entry", "entries")} were lost when the browser cleared its data`}
        >
          <p>They were not sent yet. They cannot be brought back.</p>
          <div>
            <Button onClick={() => heedGone()}>I have read this</Button>
          </div>
        </Notice>
      ) : null}
      <div class="row">
        {standing.state === "sign_in" ? (
          <Button tone="signal" href="/enter?again">
            Sign in again
          </Button>
        ) : null}
        <Button onClick={syncNow}>Send now</Button>
      </div>
      <p class="quiet">
        {standing.lastSync ? `Last synced ${dateTime(standing.lastSync, units.value)}.` : "Not synced yet."}
      </p>
    </section>
  );
}

function Waiting({ rows }: { rows: typeof household.pending.value }) {
  return (
    <section class="section" aria-labelledby="waiting">
      <h2 id="waiting">Waiting to be sent ({rows.length})</h2>
      {rows.length ? (
        <ul class="lines">
          {rows.map((row) => (
            <li key={row.key} class="line">
              {sayRecord(row.t, row.id, row, nameOf)}
            </li>
          ))}
        </ul>
      ) : (
        <p class="quiet">Nothing. Everything is on the server.</p>
      )}
    </section>
  );
}

function sayKept(persisted: boolean | undefined): string {
  if (persisted) return "The browser keeps this app’s data.";
  if (persisted === undefined)
    return "The browser may clear this app’s data. To be safe, install the app and send your entries.";
  return "The browser may clear this app’s data. To be safe, install the app and send your entries.";
}

function Keeping({ standing }: { standing: Standing }) {
  return (
    <section class="section" aria-labelledby="keeping">
      <h2 id="keeping">Kept on this phone</h2>
      <p>{sayKept(standing.persisted)}</p>
      <ExportButton />
    </section>
  );
}
