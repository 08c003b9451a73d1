/** The models of the shopping list as this phone uses them. */
import { day, engine, memberId, now, store, totals } from "../../../records/live";
import { createShopping } from "./shopping";

export const shopping = createShopping({ store, engine, totals, day, now, memberId });
