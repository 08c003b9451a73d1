/** The evening in words: is it a mowing night, what the sky does, when it gets dark; and a zone's forecast in a line. */
import { clock, count, daysBetween, percent, rain, speed, temperature, weekday } from "../../../format";
import { today as day } from "../../../platform/session/clock";
import { units } from "../../../platform/session/session";
import type { DueZone, Evening, Night, ZoneMow } from "../../../records/look";
import { Button } from "../../../ui/parts";
import { today } from "../model";

const WEEK_DAYS = 6;

/** "Thu" within the week, "Thu 14 May" beyond it. */
function sayDay(date: string): string {
  const away = daysBetween(day(), date);
  return away >= 0 && away <= WEEK_DAYS ? weekday(date).slice(0, 3) : weekday(date);
}

const sayNight = (date: string) => (date === day() ? "tonight" : `on ${sayDay(date)}`);

const WET = { rain: "Rain", frost: "Frost" };

/** Whether any zone has a forecast, by which the night is chosen. */
const foretold = ({ zones }: Evening) => Object.values(zones).some(({ known }) => known === "forecast");

function sayWhich(evening: Evening): string | undefined {
  const { night, isTonight, skipped, hasNights } = evening;
  if (!foretold(evening)) return undefined;
  const [first] = skipped;
  if (!night) return "Rain or frost on every mowing night ahead.";
  if (first) return `${WET[first.why]} expected ${sayNight(first.date)}. Mow ${sayNight(night)}.`;
  if (!hasNights) return undefined;
  return isTonight ? "Mowing night." : `Next mowing night: ${sayDay(night)}.`;
}

/** "Tonight: 46 to 64 °F, no rain, wind 8 mph". */
function sayWeather({ date, min_c, max_c, rain_mm, wind_m_s }: Night): string {
  const [low, high] = [min_c, max_c].map((c) => (c === undefined ? undefined : temperature(c, units.value)));
  const said = [
    low && high ? `${low.number} to ${high.text}` : (high?.text ?? low?.text),
    rain_mm === undefined ? undefined : rain_mm > 0 ? `rain ${rain(rain_mm, units.value).text}` : "no rain",
    wind_m_s === undefined ? undefined : `wind ${speed(wind_m_s, units.value).text}`,
  ].filter(Boolean);
  return `${date === day() ? "Today" : sayDay(date)}: ${said.join(", ")}.`;
}

/** How old what it rests on is. */
function sayFrom({ weather, fetchedAt }: Evening): string {
  if (!weather) return "No forecast here. Days between mows decide.";
  if (!fetchedAt) return "No weather forecast. We go by the climate.";
  const on = fetchedAt.slice(0, 10) === day() ? "today" : weekday(fetchedAt);
  return `Forecast of ${on}.`;
}

/** Above the list of zones. */
export function EveningLines() {
  const evening = today.evening.value;
  if (!evening) return null;
  const which = sayWhich(evening);
  return (
    <div class="stack stack--tight" data-evening>
      {which ? <p>{which}</p> : null}
      {evening.nights.map((night) => (
        <p key={night.date} class="small">
          {sayWeather(night)}
        </p>
      ))}
      <p class="small quiet">
        {evening.sunset ? `Sunset ${clock(evening.sunset, units.value)}. ` : ""}
        {sayFrom(evening)}
      </p>
      {foretold(evening) && !evening.hasNights ? (
        <div>
          <Button tone="quiet" href="/household">
            Set your mowing nights
          </Button>
        </div>
      ) : null}
      {evening.weather ? null : (
        <div>
          <Button tone="quiet" href="/weather">
            Add place and climate
          </Button>
        </div>
      )}
    </div>
  );
}

function sayRange({ mow_by, earliest, latest }: ZoneMow): string | undefined {
  if (!mow_by) return earliest ? `Not before ${sayDay(earliest)}` : undefined;
  if (!earliest || !latest) return `By ${sayDay(mow_by)}`;
  const [first, last] = [sayDay(earliest), sayDay(latest)];
  return first === last ? `By ${sayDay(mow_by)}` : `By ${sayDay(mow_by)}, likely ${first} to ${last}`;
}

/** What a cut takes on the night it is for. */
function sayTaken({ taken_share, due }: ZoneMow, evening: Evening | undefined): string | undefined {
  if (!due || !taken_share || !evening?.night) return undefined;
  const share = percent(taken_share).text;
  return evening.isTonight
    ? `You would take ${share}`
    : `On ${sayDay(evening.night)} you would take ${share}`;
}

/** "Not growing. No mow expected before Fri 20 Mar". */
function sayRest({ growing_again }: ZoneMow): string {
  return `Not growing. No mow expected ${growing_again ? `before ${weekday(growing_again)}` : "yet"}.`;
}

/** "2 days late" or when it is for, and whether it can wait. */
export function sayNeed({ mow }: DueZone & { mow: ZoneMow }): string {
  const late = mow.mow_by ? daysBetween(mow.mow_by, day()) : 0;
  if (mow.due && late > 0) return `${count(late, "day").text} late`;
  if (mow.due) return today.evening.value?.isTonight ? "Due tonight" : "Due next mowing night";
  if (mow.state === "nearly_stopped") return "Resting";
  return mow.why === "may_not_wait" ? "Can probably wait" : "Can wait";
}

/** The lines under a zone with a forecast. */
export function MowFacts({ mow }: { mow: ZoneMow }) {
  const resting = mow.state === "nearly_stopped" && !mow.due;
  const says = resting ? [sayRest(mow)] : [sayTaken(mow, today.evening.value), sayRange(mow)];
  const text = says.filter(Boolean).join(". ");
  return text ? <span class="line__facts">{text}</span> : null;
}

const LACKS: Partial<Record<ZoneMow["known"], string>> = {
  no_grass: "Add its grass to get a forecast.",
  no_height: "Add a mowing height to get a forecast.",
};

/** What a zone lacks where others have a forecast. */
export function LacksFacts({ id }: { id: string }) {
  const evening = today.evening.value;
  const said = evening?.weather ? evening.zones[id] : undefined;
  const text = said && LACKS[said.known];
  return text ? <span class="line__facts">{text}</span> : null;
}
