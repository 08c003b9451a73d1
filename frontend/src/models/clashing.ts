/** The one model of clashes, made once the engine is there: it is no part of the first paint. */
import { call } from "../engine";
import { store as bare } from "../store";
import { createClashes } from "./clashes";
import { today as day } from "./clock";
import { reading } from "./reading";
import { restful } from "./rest";
import { session } from "./session";

const memberId = () => session.value?.member_id;

export const clashes = createClashes({ store: restful(reading(bare)), engine: { call }, day, memberId });
