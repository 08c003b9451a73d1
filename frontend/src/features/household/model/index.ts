/** The models of this feature as this phone uses them. */

import table from "@fixtures/kinds.json";
import { session } from "../../../platform/session/session";
import { store } from "../../../records/live";
import { createHousehold } from "./household";

export const household = createHousehold({ store, session, kinds: Object.keys(table.kinds) });
