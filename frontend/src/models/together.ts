/** The models that only the household's own screens use: made when those are first opened, not with the first paint. */
import { store } from "../store";
import { request } from "../sync/http";
import { createAccount } from "./account";
import { createConflicts } from "./conflicts";
import { createDevices } from "./devices";
import { createHeld } from "./held";
import { createInvitations } from "./invitations";
import { createMembers } from "./members";
import { confirmSession, session, signOut } from "./session";
import { createSignIns } from "./sign-ins";
import { syncNow } from "./sync";

const root = () => (session.value ? `households/${session.value.household.id}` : undefined);

async function changed(): Promise<void> {
  await confirmSession();
  syncNow();
}

export const conflicts = createConflicts({ store });
export const members = createMembers({ request, root, changed });
export const devices = createDevices({ request, root });
export const held = createHeld({ request, root, synced: syncNow });
export const invitations = createInvitations({ request, root, now: () => Date.now() });
export const account = createAccount({ request, signOut, synced: syncNow });
export const signIns = createSignIns({ request });
