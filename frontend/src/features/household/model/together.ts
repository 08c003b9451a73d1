/** The models that only the household's own screens use: made when those are first opened, not with the first paint. */

import { confirmSession, session, signOut } from "../../../platform/session/session";
import { request as bare } from "../../../platform/sync/http";
import { syncNow } from "../../../platform/sync/running";
import { store } from "../../../records/live";
import { rest } from "../../../records/rest";
import { createAccount } from "./account";
import { createCalendar } from "./calendar";
import { createConflicts } from "./conflicts";
import { createDevices } from "./devices";
import { createInvitations } from "./invitations";
import { createMembers } from "./members";
import { createPendingReview } from "./pending-review";
import { createSignIns } from "./sign-ins";

const root = () => (session.value ? `households/${session.value.household.id}` : undefined);

/** What the server is asked to do is followed by the rest, as what is recorded here is; looking at a list is not. */
const request: typeof bare = (method, ...asked) =>
  method === "GET" ? bare(method, ...asked) : rest.during(() => bare(method, ...asked));

async function changed(): Promise<void> {
  await confirmSession();
  syncNow();
}

export const conflicts = createConflicts({ store });
export const members = createMembers({ request, root, changed });
export const devices = createDevices({ request, root });
export const pendingReview = createPendingReview({ request, root, synced: syncNow });
export const invitations = createInvitations({ request, root, now: () => Date.now() });
export const calendar = createCalendar({ request, root });
export const account = createAccount({ request, signOut, synced: syncNow });
export const signIns = createSignIns({ request });
