import { useState } from "preact/hooks";
import { nameOf } from "../../../records/log/named";
import { Button, lateSheet } from "../../../ui/parts";
import { claims } from "../model";
import type { Claim } from "../model/claims";
import { giveUp, noteDone, sayClaimOn } from "./claim-it";

const SaySheet = lateSheet(() => import("./say-sheet").then((found) => found.SaySheet));

/** Who said they will do what; one's own with what became of it. */
export function Claims() {
  const lines = claims.still.rows.value;
  const [saying, setSaying] = useState(false);
  return (
    <section class="section" aria-labelledby="claims">
      <h2 id="claims">Jobs taken</h2>
      {lines.length ? (
        <ul class="lines">
          {lines.map(({ id, was, now }) => (
            <ClaimLine key={id} claim={now ?? was} gone={now === undefined} />
          ))}
        </ul>
      ) : (
        <p class="quiet">No jobs taken yet.</p>
      )}
      <div>
        <Button onClick={() => setSaying(true)}>Take a job</Button>
      </div>
      <SaySheet open={saying} onClose={() => setSaying(false)} />
    </section>
  );
}

/** A line that has left the list keeps its place for a moment, and takes no tap. */
function ClaimLine({ claim, gone }: { claim: Claim; gone: boolean }) {
  const says = sayClaimOn(claim);
  const zones = claim.zoneIds.map((id) => nameOf(id) ?? "a zone not on this phone").join(", ");
  return (
    <li class="line claim">
      <span class="line__main">
        <span class="line__title">{says}</span>
        <span class="line__facts">{zones || (claim.job === "other" ? "" : "The whole yard")}</span>
        {claim.note ? <span class="line__facts">“{claim.note}”</span> : null}
      </span>
      {claim.mine ? (
        <span class="row">
          <Button label={`Done: ${says}`} disabled={gone} onClick={() => noteDone(claim)}>
            Done
          </Button>
          <Button tone="quiet" label={`Drop it: ${says}`} disabled={gone} onClick={() => giveUp(claim)}>
            Drop it
          </Button>
        </span>
      ) : null}
    </li>
  );
}
