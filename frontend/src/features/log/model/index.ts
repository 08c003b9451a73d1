/** The models of this feature as this phone uses them. */

import { memberId, now, store } from "../../../records/live";
import { createLog } from "./log";

export const log = createLog({ store, now, memberId });
