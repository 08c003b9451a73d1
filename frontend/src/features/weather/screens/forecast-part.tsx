import { useState } from "preact/hooks";
import { count } from "../../../format";
import { today as day } from "../../../platform/session/clock";
import { units } from "../../../platform/session/session";
import { syncNow } from "../../../platform/sync/running";
import { Button, Notice, Sheet, showToast } from "../../../ui/parts";
import { asking, fetched, keeper, place } from "../model";
import { LATER, sayAge, sayPlace, TROUBLE } from "./words";

/** The forecast: on or off, how old it is, what stands in its way. */
export function ForecastPart() {
  const on = place.forecast.value;
  return (
    <section class="section" aria-labelledby="forecast">
      <h2 id="forecast">Forecast</h2>
      <div aria-live="polite" class="stack stack--tight">
        {on ? <Standing /> : <p>Off. Evenfall goes by the climate.</p>}
      </div>
      <Switch on={on} />
    </section>
  );
}

function Standing() {
  const kept = fetched.value;
  const state = kept?.state;
  if (!place.known.value) return <p>On. Add the place to get a forecast.</p>;
  if (state?.state === "off")
    return <p>On, but this server has no weather service. Evenfall goes by the climate.</p>;
  const trouble = state?.trouble ? `${TROUBLE[state.trouble] ?? ""} ${LATER}` : undefined;
  return (
    <>
      <p>
        {state?.fetchedAt
          ? `${sayAge(state.fetchedAt, day(), units.value)}.`
          : "On. No forecast has come yet."}
      </p>
      {kept?.days.length ? (
        <p class="quiet">
          {count(kept.days.length, "day").text} {kept.days.length === 1 ? "is" : "are"} on this phone.
        </p>
      ) : null}
      {trouble ? <Notice kind="warn">{trouble}</Notice> : null}
    </>
  );
}

/** A keeper turns it on, told what leaves the server; others see who may. */
function Switch({ on }: { on: boolean }) {
  const [open, setOpen] = useState(false);
  if (!keeper.value) return <p class="quiet">A keeper can turn it {on ? "off" : "on"}.</p>;
  async function turn(to: boolean): Promise<void> {
    const done = await asking.forecast(to);
    if (!done) return;
    setOpen(false);
    showToast({ text: to ? "Forecast on." : "Forecast off." });
    syncNow();
  }
  const problem = asking.problem.value;
  const { latitude_deg, longitude_deg } = place.place.value;
  return (
    <>
      <div>
        <Button onClick={() => setOpen(true)}>{on ? "Turn off the forecast" : "Turn on the forecast"}</Button>
      </div>
      <Sheet
        open={open}
        onClose={() => setOpen(false)}
        title={on ? "Turn off the forecast?" : "Turn on the forecast?"}
      >
        <div class="stack">
          {on ? (
            <p>The server stops asking. The days on your phones stay.</p>
          ) : (
            <p>
              The server tells a weather service this place:{" "}
              <strong>
                {latitude_deg === undefined ? "none yet" : sayPlace(latitude_deg, longitude_deg)}
              </strong>
              . No name, no address and nothing from your log leaves it.
            </p>
          )}
          <div aria-live="assertive">{problem ? <Notice kind="bad">{problem}</Notice> : null}</div>
          <Button tone="signal" wide onClick={() => turn(!on)} busy={asking.busy.value}>
            {on ? "Turn it off" : "Turn it on"}
          </Button>
        </div>
      </Sheet>
    </>
  );
}
