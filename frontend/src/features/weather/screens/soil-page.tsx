/** Warmth of the soil: in words, as a chart, and as a table of the same figures. */
import "../../../ui/charts/plot.css";
import { useMemo, useState } from "preact/hooks";
import { dayMonth, temperature, weekday } from "../../../format";
import { today as clockDay } from "../../../platform/session/clock";
import { units } from "../../../platform/session/session";
import { store } from "../../../records/live";
import { soundLanguage } from "../../../ui/charts/language";
import {
  Button,
  ChoiceField,
  Empty,
  late,
  Notice,
  Page,
  Sheet,
  Sideways,
  Working,
  type WorkingStep,
} from "../../../ui/parts";
import { saySource, useSources } from "../../../ui/working/sources";
import { SoilLegend } from "../drawing/soil-legend";
import type { Air, SoilDay } from "../drawing/soil-plot";
import { soil } from "../model";
import type { Soil } from "../model/soil";
import {
  AHEAD_DAYS,
  BACK_DAYS,
  daysIn,
  jobsOf,
  linesOf,
  pointsIn,
  type Stretch,
  setStretch,
  stretch,
} from "../model/soil-view";
import { AddReading } from "./add-reading";
import { MARKS, sayChart, sayGround, sayLikely, sayNext, sayNow, sayPassing } from "./soil-words";

/** With uPlot, which nothing else needs; its room is held while it comes. */
const SoilChart = late(() => {
  soundLanguage();
  return import("../drawing/soil-chart").then((found) => found.SoilChart);
});

const zones = store.rows("zone");
/** Of the whole yard: readings of any zone count. */
const warmth = soil.follows({ back: BACK_DAYS, ahead: AHEAD_DAYS, jobs: () => jobsOf(zones.value) });

export function SoilPage() {
  const answer = warmth.value;
  return (
    <Page title="Soil warmth" back="/weather" backLabel="Back to Place and weather" wide>
      {answer ? null : <p aria-busy="true">Working it out …</p>}
      {answer?.error ? (
        <Notice kind="bad" alert>
          <p>{answer.error.message}</p>
        </Notice>
      ) : null}
      {answer?.value ? <Known soil={answer.value} working={answer.working} /> : null}
    </Page>
  );
}

function Known({ soil: known, working }: { soil: Soil; working: readonly WorkingStep[] }) {
  const { chart } = known;
  if (!chart.now) return <Nothing points={chart.points.length} />;
  return (
    <div class="columns">
      <div class="stack stack--wide">
        <Words soil={known} />
        <Drawn soil={known} />
        <Worked working={working} />
      </div>
      <div class="stack stack--wide">
        <Waiting soil={known} />
        <Readings soil={known} />
        <Table soil={known} />
      </div>
    </div>
  );
}

/** Without the air of a single day nothing can be said, not even with a reading. */
function Nothing({ points }: { points: number }) {
  return (
    <Empty title="No climate yet" action={<Button href="/weather">Add place and climate</Button>}>
      <p>
        Soil warmth is worked out from the air. Two numbers are enough.
        {points ? " Your readings are kept and count from then on." : ""}
      </p>
    </Empty>
  );
}

function Words({ soil: known }: { soil: Soil }) {
  const [system, today, { chart }] = [units.value, clockDay(), known];
  return (
    <div class="stack stack--tight" aria-busy={warmth.busy.value ? "true" : undefined}>
      <div aria-live="polite" class="stack stack--tight">
        <p class="lead">{sayNow(chart, system)}</p>
        <p>{sayNext(chart, today, system)}</p>
      </div>
      <p class="quiet">{sayGround(known, today, system).join(" ")}</p>
    </div>
  );
}

function Worked({ working }: { working: readonly WorkingStep[] }) {
  const [open, setOpen] = useState(false);
  return (
    <div>
      <Button tone="quiet" onClick={() => setOpen(true)}>
        How this is worked out
      </Button>
      <Sheet open={open} onClose={() => setOpen(false)} title="Soil warmth: how this is worked out">
        <Working steps={working} />
      </Sheet>
    </div>
  );
}

const STRETCHES: { value: Stretch; label: string }[] = [
  { value: "weeks", label: "Weeks" },
  { value: "months", label: "Months" },
];

function Drawn({ soil: known }: { soil: Soil }) {
  const [system, today, shown] = [units.value, clockDay(), stretch.value];
  const drawn = useMemo(() => {
    const days = daysIn(known, today, shown);
    const marks = known.chart.marks.map(({ kind, mid }) => {
      const { long, short } = MARKS[kind];
      return { mid, words: [`${long} ${temperature(mid, system).text}`, short] };
    });
    return { today, days, marks, points: pointsIn(known.chart.points, days) };
  }, [known, today, shown, system]);
  return (
    <section class="stack" aria-label="Chart">
      <figure class="soil-chart">
        <div class="plot-room">
          <SoilChart drawn={drawn} system={system} label={sayChart(drawn.days, system)} />
        </div>
        <SoilLegend drawn={drawn} />
      </figure>
      <ChoiceField label="Show" value={shown} onInput={setStretch} choices={STRETCHES} />
    </section>
  );
}

/** What the household's jobs wait for, each with who says so. */
function Waiting({ soil: { chart } }: { soil: Soil }) {
  const [system, today, sources] = [units.value, clockDay(), useSources()];
  const last = chart.days.at(-1)?.date ?? today;
  return (
    <section class="section" aria-labelledby="soil-marks">
      <h2 id="soil-marks">Thresholds</h2>
      <ul class="lines">
        {chart.marks.map((mark) => (
          <li class="line" key={mark.kind}>
            <span class="line__main">
              <span class="line__title">
                {MARKS[mark.kind].long}: {temperature(mark.mid, system).text}
              </span>
              <span>{sayPassing(mark, today, last)}</span>
              <span class="line__facts">Source: {saySource(mark.source, sources)}</span>
            </span>
          </li>
        ))}
      </ul>
      <p class="quiet">The label and local rules come first.</p>
    </section>
  );
}

/** Of the whole yard. */
const NO_ZONE: readonly string[] = [];

function Readings({ soil: { chart } }: { soil: Soil }) {
  const system = units.value;
  return (
    <section class="section" aria-labelledby="soil-readings">
      <h2 id="soil-readings">Your readings</h2>
      {chart.points.length ? (
        <ul class="lines">
          {chart.points.toReversed().map(({ date, mid, used }, at) => (
            <li class="line" key={`${date} ${at}`}>
              <span class="line__main">
                <span class="line__title">{temperature(mid, system).text}</span>
                <span class="line__facts">
                  {dayMonth(date)}
                  {used ? "" : " · read at another depth, not used here"}
                </span>
              </span>
            </li>
          ))}
        </ul>
      ) : (
        <p>None in the last 3 months. A kitchen thermometer in the soil is enough.</p>
      )}
      <div>
        <AddReading zoneIds={NO_ZONE}>Add a reading</AddReading>
      </div>
    </section>
  );
}

const AIR: Record<Air, string> = { measured: "measured", forecast: "forecast", climate: "climate" };

function Table({ soil: known }: { soil: Soil }) {
  const [today, shown] = [clockDay(), stretch.value];
  const lines = linesOf(daysIn(known, today, shown), today, shown);
  return (
    <section class="section" aria-labelledby="soil-table">
      <h2 id="soil-table">In figures</h2>
      <Sideways
        label="Soil by day"
        caption="Soil temperature by day, its likely range, and where the air comes from"
      >
        <thead>
          <tr>
            <th scope="col">Day</th>
            <th scope="col" class="num">
              Soil
            </th>
            <th scope="col" class="num">
              Likely
            </th>
            <th scope="col">Air</th>
          </tr>
        </thead>
        <tbody>
          {lines.map((line) => (
            <Line key={line.date} line={line} today={today} />
          ))}
        </tbody>
      </Sideways>
    </section>
  );
}

function Line({ line, today }: { line: SoilDay; today: string }) {
  const system = units.value;
  const { date, mid, air } = line;
  return (
    <tr aria-current={date === today ? "date" : undefined}>
      <th scope="row">{date === today ? "Today" : weekday(date)}</th>
      <td class="num">{temperature(mid, system).text}</td>
      <td class="num">{sayLikely(line, system)}</td>
      <td>{AIR[air]}</td>
    </tr>
  );
}
