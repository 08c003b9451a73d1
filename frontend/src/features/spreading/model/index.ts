/** The models of this feature as this phone uses them. */

import { engine, memberId, now, ready, store, system, totals } from "../../../records/live";
import { createSpreading } from "./spreading";

export const spreading = createSpreading({ store, engine, now, memberId, system, ready, totals });
