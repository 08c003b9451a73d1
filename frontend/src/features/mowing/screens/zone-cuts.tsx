/** The last cuts of a zone: drawn, with the height expected on the coming days, and listed. */
import { Link } from "wouter-preact";
import { dayAfter, dayMonth, height, percent, unitOf } from "../../../format";
import { today as day } from "../../../platform/session/clock";
import { units } from "../../../platform/session/session";
import { nameOf } from "../../../records/log/named";
import { sayDay } from "../../../records/mowing/said";
import { HeightDrawing, HeightLegend } from "../../../ui/charts/height-drawing";
import { Sideways } from "../../../ui/parts";
import type { Look, ToldCut, ZoneForecast } from "../model/zone-mow";

interface ZoneCutsProps {
  cuts: readonly ToldCut[];
  looks: readonly Look[];
  loaded: boolean;
  known: ZoneForecast | undefined;
}

export function ZoneCuts({ cuts, looks, loaded, known }: ZoneCutsProps) {
  return (
    <section class="section" aria-labelledby="last-cuts">
      <h2 id="last-cuts">Last cuts</h2>
      {cuts.length || looks.length ? (
        <>
          <Drawn cuts={cuts} looks={looks} known={known} />
          <CutTable cuts={cuts} looks={looks} />
          {cuts.some(inOneGo) ? <p class="small quiet">* Minutes for several zones together.</p> : null}
        </>
      ) : (
        <p>{loaded ? "No recent cuts. Log a mow with its heights and they are drawn here." : "…"}</p>
      )}
    </section>
  );
}

const inOneGo = ({ minutes, zones }: ToldCut) => minutes !== undefined && zones > 1;

/** Nothing where no height is known: the list says the rest. */
function Drawn({ cuts, looks, known }: Omit<ZoneCutsProps, "loaded">) {
  const system = units.value;
  const { factor, label } = unitOf("height", system);
  const { zone, ahead = [] } = known ?? {};
  if (!ahead.length && !looks.length && cuts.every(({ after_mm }) => after_mm === undefined)) return null;
  return (
    <figure class="stack">
      <HeightDrawing
        cuts={cuts}
        looks={looks}
        ahead={ahead}
        today={day()}
        target_mm={zone?.target_mm ?? undefined}
        mow_at_mm={zone?.mow_at_mm ?? undefined}
        write={(mm) => height(mm, system).number}
        factor={factor}
        unit={label}
        writeDay={dayMonth}
      />
      <figcaption class="stack stack--tight">
        <HeightLegend
          of={{
            cut: cuts.some(({ after_mm }) => after_mm !== undefined),
            third: cuts.some(({ lowest_mm }) => lowest_mm !== undefined),
            look: looks.length > 0,
            unsaid: cuts.some(({ after_mm }) => after_mm === undefined),
            ahead: ahead.length > 1,
            target: (zone?.target_mm ?? undefined) !== undefined,
            mow_at: (zone?.mow_at_mm ?? undefined) !== undefined,
          }}
        />
        <Expected ahead={ahead} known={known} />
      </figcaption>
    </figure>
  );
}

type Ahead = ZoneForecast["ahead"];

/** The drawing's coming heights in words: of today, of the next mowing night, and of a week from now. */
function Expected({ ahead, known }: { ahead: Ahead; known: ZoneForecast | undefined }) {
  const today = day();
  const wanted = [today, known?.evening.night, dayAfter(today, 7)];
  const rows = ahead.filter(({ date }) => wanted.includes(date));
  if (!rows.length) return null;
  return (
    <p class="small">
      {rows.map((row) => (
        <span key={row.date}>{sayExpected(row, today)} </span>
      ))}
    </p>
  );
}

function sayExpected({ date, low, mid, high }: Ahead[number], today: string): string {
  const [least, expected, most] = [low, mid, high].map((mm) => height(mm, units.value));
  const on = date === today ? "today" : `on ${sayDay(date, today)}`;
  const range = least?.text === most?.text ? "" : `, likely ${least?.number} to ${most?.text}`;
  return `Expected ${on}: ${expected?.text}${range}.`;
}

const heightOr = (mm: number | undefined) => (mm === undefined ? <None /> : height(mm, units.value).text);

/** What nobody noted. */
const None = () => (
  <>
    <span aria-hidden="true">–</span>
    <span class="sr">not noted</span>
  </>
);

const isCut = (row: ToldCut | Look): row is ToldCut => !("height_mm" in row);

function CutTable({ cuts, looks }: Pick<ZoneCutsProps, "cuts" | "looks">) {
  // A height of the day of a cut was read before it, so it stands below.
  const rows = [...cuts, ...looks].sort((a, b) => (a.day > b.day ? -1 : a.day < b.day ? 1 : 0));
  return (
    <Sideways
      class="zone-cuts"
      label="Last cuts, listed"
      caption={`${looks.length ? "Last cuts and heights" : "Last cuts"} of this zone, the latest first`}
    >
      <thead>
        <tr>
          <th scope="col">Date</th>
          <th scope="col" class="num">
            Before
          </th>
          <th scope="col" class="num">
            After
          </th>
          <th scope="col" class="num">
            Taken
          </th>
          <th scope="col" class="num">
            Min
          </th>
          <th scope="col">By</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) =>
          isCut(row) ? <CutRow key={row.id} cut={row} /> : <LookRow key={row.id} look={row} />,
        )}
      </tbody>
    </Sideways>
  );
}

function CutRow({ cut }: { cut: ToldCut }) {
  const { id, day: on, by, before_mm, after_mm, taken_share, minutes } = cut;
  return (
    <tr>
      <Day id={id} on={on} />
      <td class="num">{heightOr(before_mm)}</td>
      <td class="num">{heightOr(after_mm)}</td>
      <td class="num">{taken_share === undefined ? <None /> : percent(taken_share).text}</td>
      <td class="num">{minutes === undefined ? <None /> : `${minutes}${inOneGo(cut) ? "*" : ""}`}</td>
      <td>{nameOf(by) ?? <None />}</td>
    </tr>
  );
}

function LookRow({ look: { id, day: on, by, height_mm } }: { look: Look }) {
  return (
    <tr>
      <Day id={id} on={on} />
      <td class="num">{heightOr(height_mm)}</td>
      <td colSpan={3}>no cut</td>
      <td>{nameOf(by) ?? <None />}</td>
    </tr>
  );
}

const Day = ({ id, on }: { id: string; on: string }) => (
  <th scope="row">
    <Link className="zone-cuts__day" href={`/log/${id}`}>
      {dayMonth(on)}
    </Link>
  </th>
);
