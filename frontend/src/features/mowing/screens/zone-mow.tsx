/** A zone's mow on its own page: when it is next due and why, what a cut would take, and what is missing to know it. */
import "../style.css";
import type { FunctionComponent } from "preact";
import { useMemo, useState } from "preact/hooks";
import { height, percent } from "../../../format";
import { sayRefusal } from "../../../forms/refusal";
import { useEngine } from "../../../platform/engine";
import { today as day } from "../../../platform/session/clock";
import { units } from "../../../platform/session/session";
import { engine, forming, totals } from "../../../records/live";
import { createWriting } from "../../../records/log/writing";
import { dueAsked } from "../../../records/mowing/due";
import * as said from "../../../records/mowing/said";
import { Button, Notice, Sheet, Working } from "../../../ui/parts";
import { MowSheet } from "..";
import { mows, zones } from "../model";
import type { ForecastModel } from "../model/forecast";
import { forecastHere } from "../model/forecast-here";
import { createZoneMow, type ZoneForecast } from "../model/zone-mow";
import { ZoneCuts } from "./zone-cuts";

/** With the forecast that it follows, once its code is there. */
export async function zoneMow(): Promise<FunctionComponent<{ id: string }>> {
  const forecast = await forecastHere();
  return ({ id }) => <ZoneMow id={id} forecast={forecast} />;
}

interface ZoneMowProps {
  id: string;
  forecast: Pick<ForecastModel, "worked" | "evening">;
}

export function ZoneMow({ id, forecast }: ZoneMowProps) {
  const model = useMemo(() => createZoneMow({ engine, day, mows, forecast }, id), [id, forecast]);
  const found = model.said.value;
  const known = found?.value;
  return (
    <>
      <section class="section zone-mow" aria-labelledby="next-mow">
        <h2 id="next-mow">Next mow</h2>
        {found?.error ? (
          <Notice kind="bad">
            <p>Can’t tell when it is due. {sayRefusal(found.error, units.value)}</p>
          </Notice>
        ) : null}
        {known ? <Known id={id} known={known} /> : null}
        {found ? null : (
          <p class="zone-mow__wait" aria-busy="true">
            Working out when it is due …
          </p>
        )}
        <Acts id={id} why={known?.mow?.known === "forecast" ? known.why : []} />
      </section>
      <ZoneCuts cuts={model.cuts.value} looks={model.looks.value} loaded={model.loaded.value} known={known} />
    </>
  );
}

/** The mow is logged from here too, and why it is due is a tap away. */
function Acts({ id, why }: { id: string; why: ZoneForecast["why"] }) {
  const [logging, setLogging] = useState(false);
  const [asking, setAsking] = useState(false);
  return (
    <div class="row">
      <Button onClick={() => setLogging(true)}>Log a mow</Button>
      {why.length ? (
        <Button tone="quiet" onClick={() => setAsking(true)}>
          Why is it due?
        </Button>
      ) : null}
      <MowSheet
        open={logging}
        onClose={() => setLogging(false)}
        zoneIds={[id]}
        add={createWriting(forming).add}
      />
      <Sheet open={asking} onClose={() => setAsking(false)} title="Why is it due?">
        <Working steps={why} />
      </Sheet>
    </div>
  );
}

function Known({ id, known }: { id: string; known: ZoneForecast }) {
  const { evening, mow, zone } = known;
  if (!mow || !zone || mow.known !== "forecast") return <Unknown id={id} known={known} />;
  const today = day();
  const resting = said.isResting(mow);
  return (
    <>
      <p>
        <span class={`tag tag--long ${mow.due ? "tag--due" : "tag--good"}`}>
          {said.sayNeed(mow, evening, today)}
        </span>
      </p>
      <div class="stack stack--tight">
        {resting ? <p>{said.sayRest(mow)}</p> : <Range says={said.sayRange(mow, today)} />}
        {resting ? null : <Takes known={known} />}
      </div>
      <p class="small quiet">
        {said.sayFrom(evening, today)} {sayLearned(zone)}
      </p>
    </>
  );
}

const Range = ({ says }: { says: string | undefined }) => (
  <p>
    <strong>{says ?? "No date within the days known"}.</strong>
  </p>
);

type Zone = NonNullable<ZoneForecast["zone"]>;

/** How sure it is, and of a cut whose height nobody noted what it was taken for. */
function sayLearned({ looks, cut_taken, cut_mm }: Zone): string {
  const seen =
    looks === 0
      ? "Note the height before a mow and this gets surer."
      : `Learned from ${looks === 1 ? "one height" : `${looks} heights`}.`;
  return cut_taken && cut_mm !== null
    ? `The last cut has no height, taken as ${height(cut_mm, units.value).text}. ${seen}`
    : seen;
}

/** What a cut would take today and on the coming mowing nights. */
function Takes({ known: { evening, mow, zone } }: { known: ZoneForecast }) {
  const today = day();
  const { night, nextNight, isTonight } = evening;
  const system = units.value;
  const low = mow?.cut_to_mm;
  const over = mow && low && zone?.target_mm && mow.taken_share && low > zone.target_mm;
  const says = [
    isTonight ? sayNow(mow?.taken_share, "tonight") : sayNow(zone?.takes_share, "today"),
    night && !isTonight && mow?.taken_share
      ? `${said.sayTakenOn(mow.taken_share, night, today)}.`
      : undefined,
    over ? `That is more than a third. Cut to ${height(low, system).text} first.` : undefined,
    nextNight && mow?.skipped_share ? `${said.sayTakenOn(mow.skipped_share, nextNight, today)}.` : undefined,
  ].filter(Boolean);
  return says.length ? (
    <ul class="stack stack--tight">
      {says.map((text) => (
        <li key={text}>{text}</li>
      ))}
    </ul>
  ) : null;
}

function sayNow(share: number | null | undefined, when: "today" | "tonight"): string | undefined {
  if (share === null || share === undefined) return undefined;
  return share > 0 ? `A cut ${when} would take ${percent(share).text}.` : `Too short to cut ${when}.`;
}

/** Where there is no forecast: what decides instead, what is missing, and the way to mend it. */
function Unknown({ id, known: { evening, mow } }: { id: string; known: ZoneForecast }) {
  const missing = evening.weather ? (mow?.known ?? "no_weather") : "no_weather";
  const last = totals.value?.value?.zones[id]?.last_mow;
  const edit = `/ground/${id}/edit`;
  const ways: Record<string, { says: string; href?: string; act?: string }> = {
    no_grass: { says: said.LACKS.no_grass ?? "", href: edit, act: "Add the grass" },
    no_height: { says: said.LACKS.no_height ?? "", href: edit, act: "Add the mowing height" },
    no_mow: {
      says: last ? "The last mow is too long ago for a forecast." : "Log its first mow to get a forecast.",
    },
    no_weather: {
      says: said.sayFrom({ ...evening, weather: false }, day()),
      href: "/weather",
      act: "Add place and climate",
    },
  };
  const way = ways[missing];
  return (
    <>
      <ByDays id={id} />
      {way ? <p>{way.says}</p> : null}
      {way?.href ? (
        <div>
          <Button href={way.href}>{way.act}</Button>
        </div>
      ) : null}
    </>
  );
}

/** By the days between mows, as Today has it. */
function ByDays({ id }: { id: string }) {
  const rows = zones.value.filter((row) => row.id === id);
  const known = totals.value?.value;
  const { answer } = useEngine("record.due", rows.length && known ? dueAsked(rows, known, day()) : null);
  const due = answer?.value?.zones[id];
  if (!due) return null;
  const { says, tag } = said.sayByDays(due, day());
  return (
    <p>
      <span class={`${tag} tag--long`}>{says}</span>
    </p>
  );
}
