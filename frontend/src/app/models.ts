/** The models in use: each made once, over the store and the engine of this phone. */
import table from "@fixtures/kinds.json";
import { createGround } from "../features/ground/model/ground";
import { createOutlines } from "../features/ground/model/outline-draft";
import { createHousehold } from "../features/household/model/household";
import { createLog } from "../features/log/model/log";
import { createPhotos } from "../features/photos/model/photos";
import { createCurve } from "../features/shed/model/curve";
import { createShed } from "../features/shed/model/shed";
import { createTrays } from "../features/shed/model/trays";
import { createSpreading } from "../features/spreading/model/spreading";
import { createClaims } from "../features/today/model/claims";
import { createToday } from "../features/today/model/today";
import { restful } from "../forms/rest";
import { call } from "../platform/engine";
import { today as day, followDays, nowHere as now } from "../platform/session/clock";
import { followUnits, session, units, whenUnitsKnown } from "../platform/session/session";
import { store as bare } from "../platform/store";
import { createKeepOff } from "../records/keep-off";
import { checkGroup } from "../records/kinds";
import { reading } from "../records/reading";
import { createLeftOut } from "../records/sick";
import { createTotals } from "../records/totals";

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
    return household
      ? import("../platform/photos/wire").then(({ photoWire }) => photoWire(household))
      : undefined;
  },
  take: () => import("../platform/photos/take").then(({ take }) => take),
  nameOf: (bytes) => import("../platform/photos/take").then(({ nameOf }) => nameOf(new Uint8Array(bytes))),
});
export const leftOut = createLeftOut({ store });
/** One record, checked, as a form is opened on it. */
export const rowNow = store.row;
export const spreading = createSpreading({ store, engine, now, memberId, system, ready, totals });
