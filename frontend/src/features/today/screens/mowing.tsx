import { useRef, useState } from "preact/hooks";
import { clock, daysAgo, weekday } from "../../../format";
import { sayRefusal } from "../../../forms/refusal";
import type { StillRow } from "../../../forms/still";
import type { Step } from "../../../platform/engine/types";
import { today as day } from "../../../platform/session/clock";
import { units } from "../../../platform/session/session";
import { keepOff } from "../../../records/live";
import { sayByDays, sayNeed } from "../../../records/mowing/said";
import { Button, Notice, Sheet, Working } from "../../../ui/parts";
import { MowSheet } from "../../mowing";
import { onFoot } from "../../spreading";
import { sayUntil } from "../keep-off";
import { claims, today } from "../model";
import type { DueZone } from "../model/today";
import { sayClaimOn, takeOn } from "./claim-it";
import { noteMow } from "./note-mow";
import { EveningLines, LacksFacts, MowFacts } from "./tonight";

/** Words and mark for how a zone stands; the words carry it, the colour only helps. */
function DueTag({ zone }: { zone: DueZone }) {
  if (zone.mow) {
    const says = sayNeed(zone.mow, today.evening.value, day());
    return <span class={zone.state === "ok" ? "tag tag--good" : "tag tag--due"}>{says}</span>;
  }
  const { says, tag } = sayByDays(zone, day());
  return <span class={tag}>{says}</span>;
}

const mownToday = ({ lastMow }: DueZone) => lastMow !== null && lastMow.slice(0, 10) === day();

function ZoneLine({ was, now }: StillRow<DueZone>) {
  const zone = now ?? was;
  return (
    <li class="line">
      <span class="line__main">
        <span class="line__title">{zone.name}</span>
        <span class="row">
          <DueTag zone={zone} />
          {zone.lastMow ? <span class="line__facts">mowed {daysAgo(zone.lastMow, day())}</span> : null}
        </span>
        {zone.mow ? <MowFacts mow={zone.mow} /> : <LacksFacts id={zone.id} />}
        <KeptOffTag id={zone.id} />
        <ClaimOn zone={zone} wanted={was.state !== "ok"} />
      </span>
      <Button
        label={`${mownToday(zone) ? "Mowed again" : "Mowed"}: ${zone.name}`}
        disabled={now === undefined}
        onClick={() => noteMow([zone.id], zone.name)}
      >
        {mownToday(zone) ? "Mowed again" : "Mowed"}
      </Button>
    </li>
  );
}

/** Nobody mows there yet. */
function KeptOffTag({ id }: { id: string }) {
  const kept = keepOff.zones.value[id];
  return kept ? (
    <span>
      <span class="tag tag--overdue tag--long">{sayUntil(kept)}</span>
    </span>
  ) : null;
}

/**
 * Who said they will mow it tonight; else, where it wants a mow, the tap that says so oneself. Where it wanted one a
 * moment ago the room is kept, so that the lines below stay where they are.
 */
function ClaimOn({ zone, wanted }: { zone: DueZone; wanted: boolean }) {
  const claim = claims.onZone(zone.id, "mow");
  const room = wanted ? "claim-room" : undefined;
  if (claim)
    return (
      <span class={room}>
        <span class="claim-on">{sayClaimOn(claim)}</span>
      </span>
    );
  if (zone.state === "ok") return wanted ? <span class={room} /> : null;
  // Whether somebody has taken it is not known before the book is read.
  if (!claims.loaded.value) return <span class="claim-room" />;
  const say = () => takeOn({ job: "mow", zoneIds: [zone.id] }, zone.name);
  return (
    <span class={room}>
      <Button tone="quiet" label={`I’ll do it: ${zone.name}`} onClick={say}>
        I’ll do it
      </Button>
    </span>
  );
}

/** Taken today, as far as is known. */
function isTaken(id: string): boolean {
  const kept = today.look.value;
  const known = claims.loaded.value || kept?.at.slice(0, 10) !== day();
  return known ? claims.onZone(id, "mow") !== undefined : kept.taken.includes(id);
}

/** Every zone that wants a mow and that nobody has spoken for; where some were a moment ago the button keeps its place. */
function TakeAll({ zones, wanted }: { zones: readonly DueZone[]; wanted: number }) {
  const free = zones.filter(({ id }) => !isTaken(id));
  const offered = useRef(false);
  const held = today.still.held.value && offered.current && wanted > 1;
  offered.current = free.length > 1 || held;
  if (!offered.current) return null;
  const what = free.length === zones.length ? "Everything due" : "The rest";
  return (
    <Button
      wide
      disabled={free.length < 2 || !claims.loaded.value}
      onClick={() => takeOn({ job: "mow", zoneIds: free.map(({ id }) => id) }, what)}
    >
      I’ll mow tonight
    </Button>
  );
}

/** What stands there from before says so, in a place that moves nothing when it goes. */
function AsOf() {
  const kept = today.look.value;
  if (!kept) return null;
  const of = kept.at.slice(0, 10) === day() ? "" : `${weekday(kept.at)}, `;
  return (
    <span class="small quiet" data-as-of>
      as of {of}
      {clock(kept.at, units.value)}
    </span>
  );
}

/** Nobody is led to mow the whole yard where a part of it is to be kept off. */
const allFree = (zones: readonly DueZone[]) => zones.every(({ id }) => !keepOff.zones.value[id]);

/** What a forecast says can wait is folded away; a line keeps its place for a moment after a tap. */
function Zones({ rows }: { rows: readonly StillRow<DueZone>[] }) {
  const waits = rows.filter(({ was }) => was.mow && was.state === "ok");
  const first = rows.filter((row) => !waits.includes(row));
  return (
    <>
      {first.length ? <Lines rows={first} /> : <p>Nothing needs a mow now.</p>}
      {waits.length ? (
        <details class="waits">
          <summary>{waits.length} can wait</summary>
          <Lines rows={waits} />
        </details>
      ) : null}
    </>
  );
}

const Lines = ({ rows }: { rows: readonly StillRow<DueZone>[] }) => (
  <ul class="lines">
    {rows.map((row) => (
      <ZoneLine key={row.id} {...row} />
    ))}
  </ul>
);

export function Mowing() {
  const zones = today.dueZones.value;
  const rows = today.still.rows.value;
  const wanting = today.wanting.value;
  const wanted = rows.filter(({ was }) => was.state !== "ok").length;
  const again = zones.length > 0 && zones.every(mownToday);
  const [details, setDetails] = useState(false);
  const [why, setWhy] = useState(false);
  const said = today.due.value;
  const problem = said?.error ?? today.totals.value?.error;
  return (
    <section class="section" aria-labelledby="mowing">
      <div class="row row--ends section__head">
        <h2 id="mowing">Mowing</h2>
        <AsOf />
      </div>
      {problem ? (
        <Notice kind="bad">
          <p>Can’t tell what is due. {sayRefusal(problem, units.value)}</p>
        </Notice>
      ) : null}
      <EveningLines />
      {zones.length ? (
        <>
          <Button
            tone={wanting.length && allFree(zones) && !onFoot.value ? "signal" : "plain"}
            wide
            onClick={() =>
              noteMow(
                zones.map((zone) => zone.id),
                "Whole yard",
              )
            }
          >
            {again ? "Mowed the whole yard again" : "Mowed the whole yard"}
          </Button>
          <TakeAll zones={wanting} wanted={wanted} />
          <Zones rows={rows} />
        </>
      ) : (
        <p aria-busy={!problem}>
          {problem ? "You can still log a mow with details." : "Checking what is due …"}
        </p>
      )}
      <div class="row">
        <Button tone="quiet" onClick={() => setDetails(true)}>
          Log a mow with details
        </Button>
        {today.why.value.length ? (
          <Button tone="quiet" onClick={() => setWhy(true)}>
            Why is it due?
          </Button>
        ) : null}
      </div>
      <MowSheet
        open={details}
        onClose={() => setDetails(false)}
        zoneIds={wanting.map(({ id }) => id)}
        add={today.add}
      />
      <Sheet open={why} onClose={() => setWhy(false)} title="Why is it due?">
        <Working steps={byName(today.why.value, zones)} />
      </Sheet>
    </section>
  );
}

/** The engine's steps name a zone by its id; the reader knows it by its name. */
function byName(steps: readonly Step[], zones: readonly DueZone[]): Step[] {
  return steps.map((step) => {
    const name = zones.find((zone) => zone.id === step.of)?.name;
    return name ? { ...step, what: `${name}: ${step.what.toLowerCase()}` } : step;
  });
}
