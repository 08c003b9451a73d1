import { store } from "../../../platform/store";
import { WALK_KEY } from "../../spreading/model/spreading";
import type { WalkDraft } from "../../spreading/model/types";

/** The walk under way, as kept on this phone. */
export const onFoot = store.drafts.watch<WalkDraft>(WALK_KEY);
