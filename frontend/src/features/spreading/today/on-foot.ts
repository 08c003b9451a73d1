import { store } from "../../../platform/store";
import { SPREAD_KEY } from "../model/key";
import type { SpreadDraft } from "../model/types";

/** The job under way, as kept on this phone. */
export const onFoot = store.drafts.watch<SpreadDraft>(SPREAD_KEY);
