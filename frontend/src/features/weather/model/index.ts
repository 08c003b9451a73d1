/** The models of this feature as this phone uses them. */
import { computed } from "@preact/signals";
import { session } from "../../../platform/session/session";
import { weather as fetched } from "../../../platform/store";
import { request } from "../../../platform/sync/http";
import { day, engine, memberId, store } from "../../../records/live";
import { createAsking } from "./asking";
import { createCheckDays } from "./check-days";
import { createDays } from "./days";
import { createOwnDays } from "./own-days";
import { createPlace } from "./place";
import { createSoil } from "./soil";

export { fetched };
export const place = createPlace({ store, session });
export const own = createOwnDays({ store, engine, day });
export const days = createDays({ engine, day, place, own, fetched });
export const soil = createSoil({ store, engine, day, days });
export const checkDays = createCheckDays({ days, soil });
export const asking = createAsking({ request, household: () => session.value?.household.id });

/** As the book says, which is newer than what was said at sign-in. */
export const keeper = computed(() => {
  const me = memberId();
  const row = me ? store.row("member", me).value : undefined;
  return (row?.groups["role"]?.value?.role ?? session.value?.role) === "keeper";
});
