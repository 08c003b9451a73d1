/** The models of this feature as this phone uses them. */

import { day, engine, memberId, now, store, totals } from "../../../records/live";
import { createClaims } from "./claims";
import { createToday } from "./today";

export const today = createToday({ store, engine, day, now, memberId, totals });
export const claims = createClaims({ store, day, now, memberId });
