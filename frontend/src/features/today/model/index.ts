/** The models of this feature as this phone uses them. */

import { day, engine, keepOff, look, memberId, now, store, totals } from "../../../records/live";
import { nameOf } from "../../../records/log/named";
import { openForecast } from "../../mowing";
import { createClaims } from "./claims";
import { createLookKeeper } from "./look-keeper";
import { createToday } from "./today";

const kept = () => look.kept.value;
export const today = createToday({ store, engine, day, now, memberId, totals, kept, openForecast });
export const claims = createClaims({ store, engine, day, now, memberId });
/** Keeps what is shown for the next opening; returns what ends that. */
export const followLook = createLookKeeper({
  look,
  today,
  claims,
  keepOff,
  engine,
  day,
  now,
  nameOf: nameOf,
});
