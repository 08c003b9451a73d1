/** Where entries stand: what waits, what was set aside, what was written twice, and how this phone keeps it all. */
import { dateTime } from "../../format";
import { household, log } from "../../models";
import { former, units } from "../../models/session";
import { syncNow } from "../../models/sync";
import { Button, Notice, Page } from "../../parts";
import { heedGone } from "../../store";
import type { Standing } from "../../store/types";
import { Conflicts } from "./conflicts";
import { countOf, sayCount } from "./counts";
import { ExportButton } from "./export";
import { Former } from "./former";
import { sayRecord } from "./says";
import { SetAside } from "./set-aside";

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
      return left
        ? `${kept} and ${one ? "is" : "are"} being sent now.`
        : "Looking for news of the household now.";
    case "sign_in":
      return `${left ? `${kept}. ` : ""}The server wants you to sign in again: the time ran out, or this phone was signed out from another one. Nothing is lost meanwhile.`;
    case "offline":
      return left
        ? `No signal. ${kept}; ${one ? "it goes" : "they go"} out by ${one ? "itself" : "themselves"}.`
        : "No signal. Everything entered here was sent before.";
    case "update":
      return `This app is too old to send; close it and open it again to update it. ${left ? `${kept} until then. ` : ""}Others’ entries still come in.`;
    case "trouble":
      return `${trouble ?? "Sending did not work."} ${left ? `${kept} until it does.` : ""}`;
    default:
      return `${kept} to be sent.`;
  }
}

export function EntriesPage() {
  const { standing, pending } = household;
  return (
    <Page title="Where entries stand" back="/household" backLabel="Back to the household" actions={null}>
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
        <Notice kind="bad" title={`${countOf(standing.gone, "entry", "entries")} went with a cleared store`}>
          <p>
            The browser cleared what it kept for this app before they were sent. They cannot be brought back.
          </p>
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
        {standing.lastSync
          ? `Last in touch ${dateTime(standing.lastSync, units.value)}.`
          : "Not yet in touch with the server."}
      </p>
    </section>
  );
}

function Waiting({ rows }: { rows: typeof household.pending.value }) {
  return (
    <section class="section" aria-labelledby="waiting">
      <h2 id="waiting">What waits ({rows.length})</h2>
      {rows.length ? (
        <ul class="lines">
          {rows.map((row) => (
            <li key={row.key} class="line">
              {sayRecord(row.t, row.id, row, log.nameOf)}
            </li>
          ))}
        </ul>
      ) : (
        <p class="quiet">Nothing. The server has all that was entered here.</p>
      )}
    </section>
  );
}

function sayKept(persisted: boolean | undefined): string {
  if (persisted) return "The browser has promised to keep this phone’s store.";
  if (persisted === undefined)
    return "Whether the browser keeps this phone’s store is not known: it is asked after the first entry here, and some browsers do not say. Installing the app helps; so does sending what waits.";
  return "The browser has not promised to keep this phone’s store. Installing the app helps; so does sending what waits.";
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
