import { TriangleAlert } from "lucide-preact";
import { useState } from "preact/hooks";
import { Link } from "wouter-preact";
import { dateTime, nitrogen, rate } from "../../../format";
import { units } from "../../../platform/session/session";
import type { Entry } from "../../../records/entries";
import { nameOf } from "../../../records/log/named";
import { labelOf } from "../../../records/log/registry";
import { sayBriefly } from "../../../records/log/words";
import { Button, Figure } from "../../../ui/parts";
import { StrikeSheet } from "../../log";
import type { Clash } from "../model/clashes";
import { clashes } from "../model/clashing";
import { SettleSheet } from "./settle";
import { sayCautions, sayTitle, sayWhat } from "./text";

/** So many are read one after another; a log in which every job stands twice has hundreds. */
const AT_FIRST = 5;

/** Every clash nobody has settled, the newest first; nothing while there is none. */
export function ClashCards() {
  const [all, showAll] = useState(false);
  const open = clashes.open.value;
  if (!open.length) return null;
  const shown = all || open.length === AT_FIRST + 1 ? open : open.slice(0, AT_FIRST);
  return (
    <section class="stack" aria-label="Warnings">
      {shown.map((clash) => (
        <ClashCard key={clash.key} clash={clash} />
      ))}
      {shown.length < open.length ? (
        <Button wide onClick={() => showAll(true)}>
          Show {open.length - shown.length} more warnings
        </Button>
      ) : null}
    </section>
  );
}

function ClashCard({ clash }: { clash: Clash }) {
  const [settling, setSettling] = useState(false);
  const entries = clashes.entriesOf(clash);
  const title = sayTitle(clash);
  const all = entries.length > 2 ? "All are right" : "Both are right";
  return (
    <article class="clash" aria-label={title}>
      <h2 class="clash__head">
        <TriangleAlert aria-hidden="true" size={24} />
        {title}
      </h2>
      <div class="clash__body">
        <p>{sayWhat(clash, units.value)}</p>
        <Sum clash={clash} />
        <ul class="lines">
          {entries.map((entry) => (
            <OneEntry key={entry.id} entry={entry} />
          ))}
        </ul>
        <Cautions clash={clash} />
        <Button wide onClick={() => setSettling(true)}>
          {all}
        </Button>
        <p class="quiet">Shown on every phone until someone resolves it.</p>
      </div>
      <SettleSheet clash={clash} title={all} open={settling} onClose={() => setSettling(false)} />
    </article>
  );
}

/** The figure that speaks, its working a tap away. */
function Sum({ clash }: { clash: Clash }) {
  const working = clashes.workingOf(clash);
  const { kind, days_between, interval_days, assumed, amount_kg_m2, ceiling_kg_m2, window_days } = clash;
  if (interval_days !== null)
    return (
      <Figure
        label="Days between the two"
        value={String(days_between)}
        note={`${assumed ? "asked about below" : "label says at least"} ${interval_days}`}
        working={working}
      />
    );
  if (kind === "same_job" || kind === "step_twice") return null;
  const say = kind === "phosphate" ? rate : nitrogen;
  return (
    <Figure
      label={`${kind === "phosphate" ? "Phosphate" : "Nitrogen"} ${window_days ? `in ${window_days} days` : "this year"}`}
      value={say(amount_kg_m2 ?? 0, units.value).text}
      note={`at most ${say(ceiling_kg_m2 ?? 0, units.value).text}`}
      working={working}
    />
  );
}

function OneEntry({ entry }: { entry: Entry }) {
  const [striking, setStriking] = useState(false);
  const who = nameOf(entry.by) ?? (entry.by ? "someone" : "you");
  const what = `${labelOf(entry.kind)} by ${who}, ${dateTime(entry.at, units.value)}`;
  return (
    <li class="line clash__entry">
      <Link href={`/log/${entry.id}`} className="line__main">
        <span class="line__title">{what}</span>
        <span class="line__facts">{sayBriefly(entry, units.value)}</span>
      </Link>
      <Button label={`Cross out: ${what}`} onClick={() => setStriking(true)}>
        Cross out
      </Button>
      <StrikeSheet entry={entry} open={striking} onClose={() => setStriking(false)} />
    </li>
  );
}

function Cautions({ clash }: { clash: Clash }) {
  const cautions = sayCautions(clash);
  if (!cautions.length) return null;
  return (
    <div class="stack stack--tight">
      <h3>What to do now</h3>
      <ul class="bullets">
        {cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </div>
  );
}
