/** The models in use: each made once, over the store and the engine of this phone. */
import table from "@fixtures/kinds.json";
import { call } from "../engine";
import { store as bare } from "../store";
import { createClaims } from "./claims";
import { today as day, followDays, nowHere as now } from "./clock";
import { createCurve } from "./curve";
import { createGround } from "./ground";
import { createHousehold } from "./household";
import { createKeepOff } from "./keep-off";
import { checkGroup } from "./kinds";
import { createLog } from "./log";
import { createOutlines } from "./outline-draft";
import { createPhotos } from "./photos";
import { reading } from "./reading";
import { restful } from "./rest";
import { followUnits, session, units, whenUnitsKnown } from "./session";
import { createShed } from "./shed";
import { createLeftOut } from "./sick";
import { createToday } from "./today";
import { createTotals } from "./totals";
import { createTrays } from "./trays";
import { createWalk } from "./walk";

const engine = { call };
/** Every record is checked as it is read; whatever these models record, the thumb rests after it. */
const store = restful(reading(bare));
const memberId = () => session.value?.member_id;
const system = () => units.value;
/** No form opens in another person's units. */
const ready = whenUnitsKnown;

followDays();
followUnits();

/** What the log adds up to: one signal for every place that shows some of it. */
const totals = createTotals({ store, engine, day });

export const today = createToday({ store, engine, day, now, memberId, totals });
export const keepOff = createKeepOff({ store, engine, now });
export const claims = createClaims({ store, day, now, memberId });
export const ground = createGround({ store, engine, day, system, ready, check: checkGroup, totals });
export const outlines = createOutlines({ store, engine, system, ready, check: checkGroup });
export const log = createLog({ store, now, memberId });
export const household = createHousehold({ store, session, kinds: Object.keys(table.kinds) });
export const shed = createShed({ store, engine, day, system, ready, check: checkGroup, totals });
export const curve = createCurve({ store });
export const trays = createTrays({ store, system, ready, now, memberId, check: checkGroup });
export const photos = createPhotos({
  store,
  wire: () => {
    const household = session.value?.household.id;
    return household ? import("../photos/wire").then(({ photoWire }) => photoWire(household)) : undefined;
  },
  take: () => import("../photos/take").then(({ take }) => take),
  nameOf: (bytes) => import("../photos/take").then(({ nameOf }) => nameOf(new Uint8Array(bytes))),
});
export const leftOut = createLeftOut({ store });
/** One record, checked, as a form is opened on it. */
export const rowNow = store.row;
export const walk = createWalk({ store, engine, now, memberId, system, ready, totals });
