/** Today: what is due, the weeknight tick, the job under way. */

import { effect } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { weekday } from "../../../format";
import { today as day } from "../../../platform/session/clock";
import { registered } from "../../../records/log/registry";
import { rest } from "../../../records/rest";
import { Page, PlaceActions } from "../../../ui/parts";
import { whatStands } from "../../../ui/parts/stood";
import { KeepOffToday, MayMow } from "../keep-off";
import { followLook, today } from "../model";
import { Claims } from "./claims";
import { FirstSteps } from "./first-steps";
import { Mowing } from "./mowing";

/**
 * What was kept is held in its order until two seconds after the engine has spoken, and no tap meets what has just changed.
 * Not after the paint, as an effect of the library's would: what stands where is looked at before anything is drawn anew.
 */
function useStillLook(): void {
  const kept = useRef(false);
  useEffect(
    () =>
      effect(() => {
        const now = today.look.value !== undefined;
        if (now || kept.current) today.still.hold();
        if (kept.current && !now) rest.begin(whatStands());
        kept.current = now;
      }),
    [],
  );
}

/** A yard with no zone has nothing to foretell: the forecast's code is fetched where there is one. */
function useLookAhead(wanted: boolean): void {
  useEffect(() => {
    if (wanted) void today.lookAhead();
  }, [wanted]);
}

/** What other features show here. */
function Cards({ at }: { at: string }) {
  const cards = registered().flatMap((feature) => feature.cards ?? []);
  const has = today.has.value;
  return <>{cards.map((one, k) => (one.at === at ? <one.Card key={k} has={has} /> : null))}</>;
}

export default function Today() {
  useStillLook();
  useEffect(followLook, []);
  const zones = today.zones.value;
  useLookAhead(zones.length > 0);
  const due = zones.length > 0 || today.look.value !== undefined;
  return (
    <Page title="Today" actions={<PlaceActions />} wide>
      <p class="lead">{weekday(day())}</p>
      <Cards at="top" />
      <KeepOffToday />
      {today.has.value ? <FirstSteps has={today.has.value} /> : null}
      <div class="columns">
        <div class="stack stack--wide">
          <Cards at="jobs" />
          {due ? <Mowing /> : null}
          {zones.length ? <Claims /> : null}
        </div>
        <div class="stack stack--wide">
          <Cards at="beside" />
        </div>
      </div>
      <MayMow />
    </Page>
  );
}
