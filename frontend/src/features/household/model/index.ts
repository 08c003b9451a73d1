/** The models of this feature as this phone uses them. */

import { session } from "../../../platform/session/session";
import { KINDS } from "../../../records/kinds.gen";
import { store } from "../../../records/live";
import { createHousehold } from "./household";

export const household = createHousehold({ store, session, kinds: Object.keys(KINDS) });
