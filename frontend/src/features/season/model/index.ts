/** The models of this feature as this phone uses them. */
import { session } from "../../../platform/session/session";
import { store } from "../../../records/live";
import { createRules } from "./rules/rules";

export const rules = createRules({ store, session });
