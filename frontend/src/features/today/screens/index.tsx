/** Today: what is due, the weeknight tick, the job under way. */

import { weekday } from "../../../format";
import { today as day } from "../../../platform/session/clock";
import { Page, PlaceActions } from "../../../ui/parts";
import { LateClashCards } from "../../clash/late";
import { KeepOffToday, MayMow } from "../keep-off";
import { today } from "../model";
import { Claims } from "./claims";
import { Latest, Waiting } from "./entries";
import { FirstSteps } from "./first-steps";
import { Mowing } from "./mowing";
import { SpreadCard } from "./spreading-card";

export default function Today() {
  const zones = today.zones.value;
  const ready = today.loaded.value;
  return (
    <Page title="Today" actions={<PlaceActions />} wide>
      <p class="lead">{weekday(day())}</p>
      <LateClashCards />
      <KeepOffToday />
      {ready ? <FirstSteps /> : null}
      <div class="columns">
        <div class="stack stack--wide">
          <SpreadCard />
          {zones.length ? <Mowing /> : null}
          {zones.length ? <Claims /> : null}
        </div>
        <div class="stack stack--wide">
          <Waiting />
          <Latest />
        </div>
      </div>
      <MayMow />
    </Page>
  );
}
