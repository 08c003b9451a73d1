import { WALK_KEY } from "../../models/walk";
import type { WalkDraft } from "../../models/walk-types";
import { store } from "../../store";

/** The walk under way, as kept on this phone. */
export const onFoot = store.drafts.watch<WalkDraft>(WALK_KEY);
