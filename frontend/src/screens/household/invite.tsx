import { useState } from "preact/hooks";
import { date } from "../../format";
import { household } from "../../models";
import type { Invitation } from "../../models/household";
import { Button, Notice, TextField } from "../../parts";

/** Inviting is the keeper's, and needs the server: the one thing here that wants signal. */
export function Invite() {
  if (!household.keeper.value) return null;
  const made = household.invitation.value;
  return (
    <section class="section" aria-labelledby="invite">
      <h2 id="invite">Invite someone</h2>
      <p class="quiet">A link that works once, for seven days. Whoever opens it keeps this book with you.</p>
      {made ? <Made invitation={made} /> : null}
      <div aria-live="polite">
        {household.inviteProblem.value ? (
          <Notice kind="bad" title="No invitation was made">
            <p>{household.inviteProblem.value} Inviting needs signal.</p>
          </Notice>
        ) : null}
      </div>
      <div>
        <Button onClick={() => household.invite()} busy={household.inviting.value}>
          {household.inviting.value ? "Making a link" : made ? "Make another link" : "Make an invitation"}
        </Button>
      </div>
    </section>
  );
}

/** The server draws the code; as an image it can run nothing. */
function pictureOf(svg: string): string {
  return `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;
}

function Made({ invitation: { link, svg, expires_at } }: { invitation: Invitation }) {
  const [copied, setCopied] = useState<"" | "yes" | "no">("");
  const copy = () =>
    navigator.clipboard.writeText(link).then(
      () => setCopied("yes"),
      () => setCopied("no"),
    );
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
        hint={`Good until ${date(expires_at)}, for one person.`}
      />
      <div class="row">
        <Button onClick={copy}>Copy the link</Button>
        <span role="status">
          {copied === "yes"
            ? "Copied."
            : copied === "no"
              ? "Not copied: press and hold the link to copy it."
              : ""}
        </span>
      </div>
    </div>
  );
}
