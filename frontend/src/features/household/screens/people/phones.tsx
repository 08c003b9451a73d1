/** The household's phones: whose, last sync, this one marked; a lost one can be signed out. */
import { useState } from "preact/hooks";
import { dateTime } from "../../../../format";
import { session, units } from "../../../../platform/session/session";
import { Button, Page, Standing, showToast } from "../../../../ui/parts";
import { household } from "../../model";
import type { Device } from "../../model/devices";
import { devices } from "../../model/together";
import { Ask } from "../ask";
import { countOf } from "../counts";
import { Listed, useLook, Wrong } from "../remote";

export function PhonesPage() {
  useLook(devices);
  const [lost, setLost] = useState<Device | undefined>(undefined);
  async function signOut(): Promise<void> {
    if (!lost) return;
    const done = await devices.signOut(lost.id);
    setLost(undefined);
    if (done) showToast({ text: `${lost.name} of ${lost.member_name} is signed out.` });
  }
  return (
    <Page title="Phones" back="/household" backLabel="Back to the household" actions={<Standing />}>
      <p class="quiet">
        Every phone and browser of this household. Sign out a lost one. It can’t get or send anything until
        someone signs in on it again.
      </p>
      <Listed of={devices} needs="You need a signal to see the phones.">
        {(list) => (
          <ul class="lines">
            {list.map((one) => (
              <OnePhone key={one.id} phone={one} onLost={() => setLost(one)} />
            ))}
          </ul>
        )}
      </Listed>
      <Ask
        title={lost ? `Sign out ${lost.name} of ${lost.member_name}?` : undefined}
        yes="Sign it out"
        no="Leave it signed in"
        busy={devices.busy.value === lost?.id}
        onYes={signOut}
        onNo={() => setLost(undefined)}
      >
        <p>
          Its data stays on it, with what it has not sent. That is sent when someone signs in there with the
          right password.
        </p>
        <Wrong says={devices.problem.value?.of === lost?.id ? devices.problem.value?.says : undefined} />
      </Ask>
    </Page>
  );
}

function saySeen({ closed_at, last_seen_at }: Device): string {
  if (closed_at) return `Signed out ${dateTime(closed_at, units.value)}`;
  return last_seen_at ? `Last sync ${dateTime(last_seen_at, units.value)}` : "No sync yet";
}

function OnePhone({ phone, onLost }: { phone: Device; onLost: () => void }) {
  const mine = phone.member_id === session.value?.member_id;
  const may = !phone.closed_at && !phone.this && (mine || household.keeper.value);
  const problem = devices.problem.value;
  return (
    <li class="line">
      <span class="line__main">
        <span class="line__title">
          {phone.name} of {phone.member_name || "a former member"}
          {phone.this ? <span class="tag tag--good">this phone</span> : null}
        </span>
        <span class="line__facts">{saySeen(phone)}</span>
        {phone.waiting_holes ? (
          <span class="line__facts">
            {countOf(phone.waiting_holes, "entry was", "entries were")} not added there and never sent
          </span>
        ) : null}
        <Wrong says={problem?.of === phone.id ? problem.says : undefined} />
      </span>
      {may ? (
        <Button
          onClick={onLost}
          busy={devices.busy.value === phone.id}
          label={`Sign out ${phone.name} of ${phone.member_name}`}
        >
          Sign out
        </Button>
      ) : null}
    </li>
  );
}
