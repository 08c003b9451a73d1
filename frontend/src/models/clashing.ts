/** The one model of clashes, made once the engine is there: it is no part of the first paint. */
import { call } from "../engine";
import { store as bare } from "../store";
import { createClashes } from "./clashes";
import { today as day } from "./clock";
import { restful } from "./rest";
import { session } from "./session";

const memberId = () => session.value?.member_id;

export const clashes = createClashes({ store: restful(bare), engine: { call }, day, memberId });
