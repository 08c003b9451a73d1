import { Flag } from "lucide-preact";
import { Link } from "wouter-preact";
import { area, daysAgo, nitrogen, roundLength, type System } from "../../../format";
import { sayRefusal } from "../../../forms/refusal";
import { today as day } from "../../../platform/session/clock";
import { units } from "../../../platform/session/session";
import { sayGrass } from "../../../records/grasses";
import { ZoneDrawing } from "../../../ui/drawing";
import { Button, Empty, Figure, Notice, Page, PlaceActions } from "../../../ui/parts";
import { ground } from "../model";
import type { Zone } from "../model/ground";
import "../style.css";

export function GroundList() {
  const zones = ground.zones.value;
  const total = ground.total_m2.value;
  const problem = ground.totals.value?.error;
  return (
    <Page title="Ground" actions={<PlaceActions />} wide>
      {ground.loaded.value && !zones.length ? <NoGround /> : null}
      {zones.length ? (
        <>
          <div class="row row--ends">
            <Figure
              label={zones.length === 1 ? "One zone" : `${zones.length} zones in total`}
              value={total === undefined ? "…" : area(total, units.value).text}
              size="big"
            />
            <MeasureButton />
          </div>
          {problem ? (
            <Notice kind="bad">Can’t read the log for your zones. {sayRefusal(problem, units.value)}</Notice>
          ) : null}
          <ul class="lines lines--columns">
            {zones.map((zone) => (
              <ZoneLine key={zone.id} zone={zone} system={units.value} />
            ))}
          </ul>
        </>
      ) : null}
    </Page>
  );
}

const unfinished = ground.unfinished(null);

function MeasureButton() {
  return (
    <Button tone="signal" href="/ground/new">
      {unfinished.value ? "Continue measuring" : "Measure a zone"}
    </Button>
  );
}

function NoGround() {
  return (
    <Empty title="No zones yet" action={<MeasureButton />}>
      <p>
        A zone is a piece of lawn you treat the same way, such as the back lawn. A tape measure and five
        minutes are enough.
      </p>
    </Empty>
  );
}

/** The small facts under a zone's name: when mowed, when fed, how much nitrogen this year. */
function lately(zone: Zone, system: System): string {
  const { totals } = zone;
  if (!totals) return "";
  return [
    totals.last_mow ? `mowed ${daysAgo(totals.last_mow, day())}` : "not mowed yet",
    totals.last_feed ? `fed ${daysAgo(totals.last_feed, day())}` : "not fed yet",
    `${nitrogen(totals.n_year_kg_m2, system).text} this year`,
    totals.n_unknown_feeds ? "plus feeds with no nitrogen figure" : "",
  ]
    .filter(Boolean)
    .join(" · ");
}

function ZoneLine({ zone, system }: { zone: Zone; system: System }) {
  return (
    <li>
      <Link href={`/ground/${zone.id}`} className="line">
        <span class="line__main">
          <span class="row row--ends">
            <span class="line__title">{zone.name}</span>
            <span class="num">{zone.area_m2 ? area(zone.area_m2, system).text : "no area"}</span>
          </span>
          {zone.show ? (
            <span class="row">
              <ShowTag />
            </span>
          ) : null}
          {zone.grass ? <span class="line__facts">{sayGrass(zone.grass)}</span> : null}
          <span class="line__facts">{lately(zone, system)}</span>
        </span>
        {zone.outline ? (
          <span class="line__drawing">
            <ZoneDrawing {...zone.outline} small scale={(most: number) => roundLength(most, system)} />
          </span>
        ) : null}
      </Link>
    </li>
  );
}

export function ShowTag() {
  return (
    <span class="tag tag--due">
      <Flag aria-hidden="true" size={14} />
      Show patch
    </span>
  );
}
