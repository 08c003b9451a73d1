/** The year's sheet and its moves as this phone uses them. */
import { session } from "../../../../platform/session/session";
import { day, engine, memberId, store, totals } from "../../../../records/live";
import { createMoving } from "./moving";
import { createSheet } from "./sheet";

const household = () => {
  const id = session.value?.household.id;
  return id ? store.row("household", id).value : undefined;
};

export const sheet = createSheet({
  store,
  engine,
  day,
  me: memberId,
  household,
  totals: () => totals.value?.value,
});
export const moving = createMoving({ store, engine, sheet });
