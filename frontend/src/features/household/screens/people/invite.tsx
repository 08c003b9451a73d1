import { date } from "../../../../format";
import { nameOf } from "../../../../records/log/named";
import { Button, Notice, TextField } from "../../../../ui/parts";
import { household } from "../../model";
import type { Invitation, KeptInvitation } from "../../model/invitations";
import { invitations } from "../../model/together";
import { Listed, useLook, Wrong } from "../remote";
import { CopyLink } from "./copy-link";

/** Inviting is the keeper's, and needs the server. */
export function Invite() {
  return household.keeper.value ? <Inviting /> : null;
}

function Inviting() {
  useLook(invitations);
  const { busy, problem, made, invite } = invitations;
  const making = busy.value === "new";
  return (
    <section class="section" aria-labelledby="invite">
      <h2 id="invite">Invite someone</h2>
      <p class="quiet">A link that works once, for 7 days. Whoever opens it joins your household.</p>
      {made.value ? <Made invitation={made.value} /> : null}
      <div aria-live="polite">
        {problem.value?.of === "new" ? (
          <Notice kind="bad" title="No invitation was made">
            <p>{problem.value.says}</p>
          </Notice>
        ) : null}
      </div>
      <div>
        <Button onClick={invite} busy={making}>
          {making ? "Making a link" : made.value ? "Make another link" : "Make an invitation"}
        </Button>
      </div>
      <Listed of={invitations} needs="You need a signal to see open invitations.">
        {() => <OpenOnes list={invitations.open.value ?? []} />}
      </Listed>
    </section>
  );
}

function OpenOnes({ list }: { list: KeptInvitation[] }) {
  if (!list.length) return <p class="quiet">No invitation is open.</p>;
  return (
    <ul class="lines" aria-label="Open invitations">
      {list.map((one) => (
        <li key={one.id} class="line">
          <span class="line__main">
            <span class="line__title">For one person, until {date(one.expires_at)}</span>
            <span class="line__facts">
              Made by {nameOf(one.made_by) ?? "a keeper"}, {date(one.created_at)}
            </span>
            <Wrong
              says={invitations.problem.value?.of === one.id ? invitations.problem.value.says : undefined}
            />
          </span>
          <Button
            onClick={() => invitations.withdraw(one.id)}
            busy={invitations.busy.value === one.id}
            label={`Withdraw the invitation of ${date(one.created_at)}`}
          >
            Withdraw
          </Button>
        </li>
      ))}
    </ul>
  );
}

/** The server draws the code; as an image it can run nothing. */
function pictureOf(svg: string): string {
  return `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;
}

function Made({ invitation: { link, svg, expires_at } }: { invitation: Invitation }) {
  // Closing the share sheet is no failure, and the link is still there.
  const share = () =>
    navigator
      .share({
        title: "Evenfall",
        text: `Join ${household.household.value.name} with me`,
        url: link,
      })
      .catch(() => undefined);
  return (
    <div class="stack">
      <img
        class="code"
        src={pictureOf(svg)}
        alt="The invitation link as a square code, to be read by another phone's camera"
      />
      <TextField
        label="Link"
        value={link}
        onInput={() => undefined}
        hint={`Good until ${date(expires_at)}, for one person. It is shown only now.`}
      />
      <div class="row">
        {typeof navigator.share === "function" ? <Button onClick={share}>Share the link</Button> : null}
        <CopyLink link={link} />
      </div>
    </div>
  );
}
