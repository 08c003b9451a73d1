/** The models of this feature as this phone uses them. */
import { checkGroup } from "../../../records/kinds";
import { day, engine, ready, store, system, totals } from "../../../records/live";
import { createGround } from "./ground";
import { createOutlines } from "./outline-draft";

export const ground = createGround({ store, engine, day, system, ready, check: checkGroup, totals });
export const outlines = createOutlines({ store, engine, system, ready, check: checkGroup });
