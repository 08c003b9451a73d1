/** The one model of clashes, made once the engine is there: it is no part of the first paint. */
import { day, engine, memberId, store } from "../../../records/live";
import { createClashes } from "./clashes";

export const clashes = createClashes({ store, engine, day, memberId });
