/** What former members' phones handed in: the keeper reads it in words and says yes or no (S22). */
import { useState } from "preact/hooks";
import { dateTime } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { nameOf } from "../../../../records/log/named";
import { timeOfHlc } from "../../../../records/overlay";
import { Button, Empty, Notice, Page, Standing, showToast } from "../../../../ui/parts";
import type { PendingEntry } from "../../model/pending-review";
import { pendingReview } from "../../model/together";
import { Ask } from "../ask";
import { countOf } from "../counts";
import { Facts } from "../facts";
import { Listed, useLook, Wrong } from "../remote";
import { sayFacts, sayItems } from "../text";

export function PendingReviewPage() {
  useLook(pendingReview);
  const [declining, setDeclining] = useState<PendingEntry[] | undefined>(undefined);
  async function decline(): Promise<void> {
    if (!declining) return;
    const [only] = declining;
    if (declining.length === 1 && only) await pendingReview.decline(only.id);
    else await pendingReview.declineAll();
    setDeclining(undefined);
  }
  return (
    <Page
      title="Entries to review"
      back="/household"
      backLabel="Back to the household"
      actions={<Standing />}
    >
      <p class="quiet">
        These came from phones of former members. What you accept is added under their name. What you decline
        is not added, and the server keeps it.
      </p>
      <Listed of={pendingReview} needs="You need a signal to see entries to review.">
        {(list) => (list.length ? <PendingList list={list} onDecline={setDeclining} /> : <NothingHere />)}
      </Listed>
      <Ask
        title={declining ? `Decline ${countOf(declining.length, "entry", "entries")}?` : undefined}
        yes={declining?.length === 1 ? "Decline it" : "Decline all"}
        no="Not yet"
        busy={pendingReview.busy.value !== undefined}
        onYes={decline}
        onNo={() => setDeclining(undefined)}
      >
        <p>It is not added. It stays on the phone of the person who entered it.</p>
      </Ask>
    </Page>
  );
}

/** Of a page all of whose entries are answered, the way to the others. */
function NothingHere() {
  if (!pendingReview.more.value) return <Empty title="Nothing to review" />;
  return (
    <Button onClick={pendingReview.look} busy={pendingReview.busy.value !== undefined}>
      Show the other entries
    </Button>
  );
}

interface HeldListProps {
  list: PendingEntry[];
  onDecline: (which: PendingEntry[]) => void;
}

function PendingList({ list, onDecline }: HeldListProps) {
  async function all(): Promise<void> {
    const { taken, refused } = await pendingReview.acceptAll();
    const kept = refused ? ` ${refused} could not be added. Still to review.` : "";
    showToast({ text: `${countOf(taken, "entry", "entries")} added.${kept}` });
  }
  const busy = pendingReview.busy.value !== undefined;
  return (
    <>
      {list.length > 1 ? (
        <div class="row">
          <Button tone="signal" onClick={all} busy={busy}>
            Accept all {list.length}
          </Button>
          <Button onClick={() => onDecline(list)} busy={busy}>
            Decline all
          </Button>
        </div>
      ) : null}
      <ul class="lines">
        {list.map((one) => (
          <OneHeld key={one.id} entry={one} onDecline={() => onDecline([one])} />
        ))}
      </ul>
      {pendingReview.more.value ? (
        <Button onClick={pendingReview.lookOn} busy={busy}>
          Show the next entries
        </Button>
      ) : null}
    </>
  );
}

function OneHeld({ entry, onDecline }: { entry: PendingEntry; onDecline: () => void }) {
  const [refused, setRefused] = useState("");
  const what = sayItems(entry.m, nameOf);
  const problem = pendingReview.problem.value;
  async function accept(): Promise<void> {
    const ended = await pendingReview.accept(entry.id);
    if (ended === "in") showToast({ text: `Added: ${what}.` });
    else if (ended) setRefused(ended.refused);
  }
  return (
    <li class="stack stack--tight entry-card">
      <strong>{what}</strong>
      <span class="line__facts">
        {entry.member_name || "A former member"}, written{" "}
        {dateTime(timeOfHlc(entry.hlc) ?? entry.received_at, units.value)}, handed in{" "}
        {dateTime(entry.received_at, units.value)}
      </span>
      <Facts facts={sayFacts(entry.m, { system: units.value, nameOf: nameOf })} />
      <div aria-live="polite">{refused ? <Notice kind="warn">{refused}</Notice> : null}</div>
      <Wrong says={problem?.of === entry.id ? problem.says : undefined} />
      <div class="row">
        <Button onClick={accept} busy={pendingReview.busy.value !== undefined} label={`Accept ${what}`}>
          Accept
        </Button>
        <Button tone="quiet" onClick={onDecline} label={`Decline ${what}`}>
          Decline
        </Button>
      </div>
    </li>
  );
}
