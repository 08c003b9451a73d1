/** The models of this feature as this phone uses them. */
import { checkGroup } from "../../../records/kinds";
import { day, engine, memberId, now, ready, store, system, totals } from "../../../records/live";
import { createCurve } from "./curve";
import { createShed } from "./shed";
import { createTrays } from "./trays";

export const shed = createShed({ store, engine, day, system, ready, check: checkGroup, totals });
export const curve = createCurve({ store, now, memberId });
export const trays = createTrays({ store, system, ready, now, memberId, check: checkGroup });
