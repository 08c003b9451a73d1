/** The household's phones: whose each is, when it was last heard of, and signing out one that was lost. */
import { createRemote, type RemoteParts } from "../../../platform/sync/remote";

export interface Device {
  id: string;
  name: string;
  member_id: string;
  member_name: string;
  created_at: string;
  last_seen_at: string | null;
  this: boolean;
  closed_at: string | null;
  waiting_holes: number;
  acked_dseq: number;
}

/** This phone first, then those in use by their last sync, then those signed out. */
function inOrder(devices: readonly Device[]): Device[] {
  const rank = (one: Device) => (one.this ? 0 : one.closed_at ? 2 : 1);
  const seen = (one: Device) => one.last_seen_at ?? one.created_at;
  return [...devices].sort(
    (a, b) => rank(a) - rank(b) || seen(b).localeCompare(seen(a)) || a.id.localeCompare(b.id),
  );
}

export function createDevices(parts: RemoteParts) {
  const remote = createRemote(parts, "devices", (answer: { devices: Device[] }) => inOrder(answer.devices));
  return {
    ...remote,
    /** Ends its session: it keeps its book and what waits, and is asked to sign in anew before it sends. */
    signOut: async (id: string) => (await remote.act(id, `devices/${id}/sign-out`)) !== undefined,
  };
}
