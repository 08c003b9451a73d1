/** What every model on this phone is made from, each once: store, engine, day, who is asking, what the log adds up to. */
import { call } from "../platform/engine";
import { today as day, followDays, nowHere as now } from "../platform/session/clock";
import { followUnits, session, units, whenUnitsKnown } from "../platform/session/session";
import { store as bare, bookName } from "../platform/store";
import { lookOver } from "../platform/store/reading/look-over";
import { entryOf, totalsEntry } from "./entries";
import { createKeepOff } from "./keep-off";
import { createLook } from "./look";
import { reading, soundRow } from "./reading";
import { restful } from "./rest";
import { createLeftOut } from "./sick";
import { createTotals } from "./totals";

export const engine = { call };
/** Every record is checked as it is read; whatever the models record, the thumb rests after it. */
export const store = restful(reading(bare));
/** Years of a log are checked part by part while they are read; what is found is kept with each row. */
lookOver.row = (row) => void (row.t === "entry" ? totalsEntry(entryOf(row)) : soundRow(row));
export const memberId = () => session.value?.member_id;
export const system = () => units.value;
/** No form opens in another person's units. */
export const ready = whenUnitsKnown;
export { day, now };
/** What a form is made from. */
export const forming = { store, system, ready, now, memberId };

followDays();
followUnits();

/** What the log adds up to: one signal for every place that shows some of it. */
export const totals = createTotals({ store, engine, day });

function book(): string | undefined {
  const who = session.value;
  return who ? bookName(who.person.id, who.household.id) : undefined;
}

export const look = createLook({ book, now });
export const keepOff = createKeepOff({ store, engine, now, kept: look.keptOff });
export const leftOut = createLeftOut({ store });
/** One record, checked, as a form is opened on it. */
export const rowNow = store.row;
