/** The models of this feature as this phone uses them. */

import { session } from "../../../platform/session/session";
import { engine, memberId, now, ready, store, system, totals } from "../../../records/live";
import { checkDays } from "../../weather";
import { createSpreading } from "./spreading";

export const spreading = createSpreading({
  ...{ store, engine, now, memberId, system, ready, totals },
  household: () => session.value?.household.id,
  weather: checkDays,
});
