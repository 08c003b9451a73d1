/** The one model of clashes, made once the engine is there: it is no part of the first paint. */
import { call } from "../engine";
import { store } from "../store";
import { createClashes } from "./clashes";
import { today as day } from "./clock";
import { session } from "./session";

const memberId = () => session.value?.member_id;

export const clashes = createClashes({ store, engine: { call }, day, memberId });
