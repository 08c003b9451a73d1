/** The evening in words: is it a mowing night, what the sky does, when it gets dark; and a zone's forecast in a line. */
import { clock, rain, speed, temperature } from "../../../format";
import { today as day } from "../../../platform/session/clock";
import { units } from "../../../platform/session/session";
import type { Evening, Night, ZoneMow } from "../../../records/look";
import * as said from "../../../records/mowing/said";
import { Button } from "../../../ui/parts";
import { today } from "../model";

const sayDay = (date: string) => said.sayDay(date, day());
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
        {said.sayFrom(evening, day())}
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

/** What a cut takes on the night it is for. */
function sayTaken({ taken_share, due }: ZoneMow, evening: Evening | undefined): string | undefined {
  return due && taken_share && evening?.night
    ? said.sayTakenOn(taken_share, evening.night, day())
    : undefined;
}

/** The lines under a zone with a forecast. */
export function MowFacts({ mow }: { mow: ZoneMow }) {
  const says = said.isResting(mow)
    ? [said.sayRest(mow)]
    : [sayTaken(mow, today.evening.value), said.sayRange(mow, day())];
  const text = says.filter(Boolean).join(". ");
  return text ? <span class="line__facts">{text}</span> : null;
}

/** What a zone lacks where others have a forecast. */
export function LacksFacts({ id }: { id: string }) {
  const evening = today.evening.value;
  const mow = evening?.weather ? evening.zones[id] : undefined;
  const text = mow && said.LACKS[mow.known];
  return text ? <span class="line__facts">{text}</span> : null;
}
