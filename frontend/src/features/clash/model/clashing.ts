/** The one model of clashes, made once the engine is there: it is no part of the first paint. */

import { call } from "../../../platform/engine";
import { today as day } from "../../../platform/session/clock";
import { session } from "../../../platform/session/session";
import { store as bare } from "../../../platform/store";
import { reading } from "../../../records/reading";
import { restful } from "../../../records/rest";
import { createClashes } from "./clashes";

const memberId = () => session.value?.member_id;

export const clashes = createClashes({ store: restful(reading(bare)), engine: { call }, day, memberId });
