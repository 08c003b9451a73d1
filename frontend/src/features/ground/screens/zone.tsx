import { useMemo, useState } from "preact/hooks";
import { useLocation } from "wouter-preact";
import {
  area,
  areaError,
  date,
  daysAgo,
  height,
  length,
  nitrogen,
  roundLength,
  showTyped,
} from "../../../format";
import { useEngine } from "../../../platform/engine";
import { today as day } from "../../../platform/session/clock";
import { units } from "../../../platform/session/session";
import { sayGrass } from "../../../records/grasses";
import { groupOf } from "../../../records/groups";
import type { ZoneSite } from "../../../records/kinds.gen";
import { ZoneDrawing } from "../../../ui/drawing";
import { Button, Empty, Figure, Notice, orSay, orUndo, Page, Sheet, Standing } from "../../../ui/parts";
import { ZoneMow } from "../../mowing";
import { Photos } from "../../photos";
import { SoilTests, ZoneLedger } from "../../season";
import { beginOn } from "../../spreading";
import { KeepOffNotices } from "../../today";
import { ZoneSoil } from "../../weather";
import { ground, outlines } from "../model";
import type { Zone } from "../model/ground";
import { callOnRecord, recordReadsHigh } from "../model/zone-widths";
import { ShowTag } from "./list";
import { SITE } from "./site";

export function ZonePage({ id }: { id: string }) {
  const found = useMemo(() => ground.zone(id), [id]);
  const zone = found.value;
  if (zone) return <ZoneDetail zone={zone} />;
  return (
    <Page title="Zone" back="/ground" backLabel="Back to Ground">
      {ground.loaded.value ? (
        <Empty title="Zone not found" action={<Button href="/ground">Back to Ground</Button>}>
          <p>This zone was removed, or has not reached this phone yet.</p>
        </Empty>
      ) : null}
    </Page>
  );
}

function ZoneDetail({ zone }: { zone: Zone }) {
  return (
    <Page title={zone.name} back="/ground" backLabel="Back to Ground" actions={<Standing />} wide>
      <KeepOffNotices zoneIds={[zone.id]} />
      {zone.show ? (
        <div class="row">
          <ShowTag />
        </div>
      ) : null}
      <div class="columns">
        <div class="stack stack--wide">
          <Figures zone={zone} />
          <WidthsUnsaid zone={zone} />
          <div class="row">
            <SpreadButton id={zone.id} />
            <ChangeButton id={zone.id} />
          </div>
          <ZoneMow id={zone.id} />
          <ZoneSoil id={zone.id} />
          <ZoneLedger id={zone.id} />
          <SoilTests zoneId={zone.id} />
        </div>
        <div class="stack stack--wide">
          <Facts zone={zone} />
          <Drawn zone={zone} />
          <Photos of="zone" id={zone.id} />
          <TakeOut zone={zone} />
        </div>
      </div>
    </Page>
  );
}

/** Into a job with this zone chosen; a job already under way goes on as it is. */
function SpreadButton({ id }: { id: string }) {
  const [, go] = useLocation();
  async function start(): Promise<void> {
    if (await orSay(() => beginOn(id))) go("/spread");
  }
  return (
    <Button tone="signal" onClick={start}>
      Spread on this zone
    </Button>
  );
}

function ChangeButton({ id }: { id: string }) {
  const unfinished = useMemo(() => ground.unfinished(id), [id]);
  return (
    <Button href={`/ground/${id}/edit`}>{unfinished.value ? "Continue editing" : "Edit this zone"}</Button>
  );
}

function Figures({ zone }: { zone: Zone }) {
  const system = units.value;
  const measured = callOnRecord(zone.row.groups["ground"]?.value);
  const again = useEngine(measured?.name ?? "area.shapes", measured?.args ?? null);
  const { totals, area_m2, area_sd_m2 } = zone;
  const working = ground.totals.value?.working?.filter((step) => step.of === zone.id);
  return (
    <div class="figures">
      <Figure
        label="Area"
        value={area_m2 ? area(area_m2, system).text : "not measured"}
        note={area_sd_m2 ? `likely within ± ${areaError(area_sd_m2, system).text}` : undefined}
        working={again.answer?.working}
      />
      <Figure
        label="Nitrogen this year"
        note={unknownFeeds(totals)}
        value={totals ? nitrogen(totals.n_year_kg_m2, system).text : "…"}
        working={working}
      />
      <Figure
        label="Last mow"
        value={totals?.last_mow ? daysAgo(totals.last_mow, day()) : "none yet"}
        note={totals?.last_mow ? date(totals.last_mow) : undefined}
      />
      <Figure
        label="Last feed"
        value={totals?.last_feed ? daysAgo(totals.last_feed, day()) : "none yet"}
        note={totals?.last_feed ? date(totals.last_feed) : undefined}
      />
    </div>
  );
}

/** An area from before the widths' places were asked: said, never changed by itself. */
function WidthsUnsaid({ zone }: { zone: Zone }) {
  if (!recordReadsHigh(zone.row.groups["ground"]?.value)) return null;
  return (
    <Notice kind="warn" title="This area may read high">
      <p>
        Both end widths were counted in full. Nothing was changed. Choose where you measured the widths to get
        the area again.
      </p>
      <Button href={`/ground/${zone.id}/edit`}>Check the widths</Button>
    </Notice>
  );
}

function unknownFeeds(totals: Zone["totals"]): string | undefined {
  const unknown = totals?.n_unknown_feeds;
  return unknown ? `plus ${unknown} feeding${unknown === 1 ? "" : "s"} with no nitrogen figure` : undefined;
}

/** A length of the site as it was typed, else in the person's own units; nothing where there is none. */
function said(site: Partial<ZoneSite>, name: "water_edge" | "setback"): string | undefined {
  const [typed, m] = [site[`${name}_typed`], site[`${name}_m`]];
  return typed ? showTyped(typed) : typeof m === "number" ? length(m, units.value).text : undefined;
}

/** What the zone is like, where it was written down. */
function Facts({ zone }: { zone: Zone }) {
  const { cut_height_mm, cut_height_typed, mow_every_days } = zone;
  const site = groupOf("zone", zone.row, "site");
  const cut = cut_height_typed
    ? showTyped(cut_height_typed)
    : cut_height_mm && height(cut_height_mm, units.value).text;
  const facts = [
    ["Grass", zone.grass && sayGrass(zone.grass)],
    ["Mowing height", cut],
    ["Between mows", mow_every_days && `${mow_every_days} days`],
    ["Sun", site.sun && SITE.sun[site.sun]],
    ["Slope", site.slope && SITE.slope[site.slope]],
    ["Soil", site.soil],
    ["Water", site.near_water && "runs down to water"],
    ["Edge at the water", site.near_water && said(site, "water_edge")],
    ["Keep clear of it", site.near_water && said(site, "setback")],
    ["Strips", zone.heading_deg !== undefined && `${zone.heading_deg}° clockwise from up on the drawing`],
    ["Notes", site.remarks],
  ].filter(([, value]) => value);
  if (!facts.length) return <p class="quiet">No grass, mowing height or site details yet.</p>;
  return (
    <dl class="facts">
      {facts.map(([name, value]) => [<dt key={`${name}-t`}>{name}</dt>, <dd key={`${name}-d`}>{value}</dd>])}
    </dl>
  );
}

function Drawn({ zone }: { zone: Zone }) {
  const args = zone.outline ?? zone.row.groups["ground"]?.value?.measured?.args;
  const unfinished = useMemo(() => outlines.unfinished(zone.id), [zone.id]);
  const says = unfinished.value ? "Continue drawing" : zone.outline ? "Edit the outline" : "Draw the outline";
  return (
    <div class="stack">
      {args ? (
        <figure>
          <ZoneDrawing
            {...args}
            {...(zone.outline && zone.heading_deg !== undefined ? { heading_deg: zone.heading_deg } : {})}
            label={`${zone.name} from above, to scale`}
            scale={(most: number) => roundLength(most, units.value)}
          />
        </figure>
      ) : null}
      {zone.outline ? null : <p class="quiet">Add an outline to get a strip plan for this zone.</p>}
      <div>
        <Button href={`/ground/${zone.id}/outline`}>{says}</Button>
      </div>
    </div>
  );
}

function TakeOut({ zone }: { zone: Zone }) {
  const [asking, setAsking] = useState(false);
  const [, go] = useLocation();
  async function takeOut(): Promise<void> {
    setAsking(false);
    if (await orUndo(() => ground.takeOut(zone.id), `${zone.name} removed.`)) go("/ground");
  }
  return (
    <>
      <div>
        <Button tone="quiet" onClick={() => setAsking(true)}>
          Remove this zone
        </Button>
      </div>
      <Sheet
        open={asking}
        onClose={() => setAsking(false)}
        title={`Remove ${zone.name}?`}
        actions={
          <>
            <Button onClick={() => setAsking(false)}>Keep it</Button>
            <Button tone="danger" onClick={takeOut}>
              Remove
            </Button>
          </>
        }
      >
        <p>It is removed from every phone. Log entries stay.</p>
      </Sheet>
    </>
  );
}
