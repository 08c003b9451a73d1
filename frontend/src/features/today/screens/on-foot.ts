import { store } from "../../../platform/store";
import { SPREAD_KEY } from "../../spreading/model/key";
import type { SpreadDraft } from "../../spreading/model/types";

/** The job under way, as kept on this phone. */
export const onFoot = store.drafts.watch<SpreadDraft>(SPREAD_KEY);
