/** Invitations from the keeper's side: make one, see those made, take one back. */
import { batch, computed, signal } from "@preact/signals";
import { createRemote, type RemoteParts } from "../../../platform/sync/remote";

/** A new one, with its link: that is shown once and stored nowhere. */
export interface Invitation {
  id?: string;
  link: string;
  svg: string;
  expires_at: string;
}

export interface KeptInvitation {
  id: string;
  made_by: string;
  created_at: string;
  expires_at: string;
  used_at: string | null;
  used_by: string | null;
  withdrawn_at: string | null;
}

export function createInvitations(parts: RemoteParts & { now: () => number }) {
  const remote = createRemote(
    parts,
    "invitations",
    (answer: { invitations: KeptInvitation[] }) => answer.invitations,
  );
  const made = signal<{ root: string | undefined; invitation: Invitation } | undefined>(undefined);

  const isOpen = (one: KeptInvitation) =>
    !one.used_at && !one.withdrawn_at && Date.parse(one.expires_at) > parts.now();

  return {
    ...remote,
    /** The one just made, until the book is changed or it is withdrawn. */
    made: computed(() =>
      made.value && made.value.root === parts.root() ? made.value.invitation : undefined,
    ),
    open: computed(() => remote.value.value?.filter(isOpen)),
    async invite(): Promise<void> {
      const root = parts.root();
      const done = await remote.act<Invitation>("new", "invitations");
      if (done) made.value = { root, invitation: done.answer };
    },
    async withdraw(id: string): Promise<boolean> {
      const done = await remote.act(id, `invitations/${id}/withdraw`);
      batch(() => {
        if (done && made.value?.invitation.id === id) made.value = undefined;
      });
      return done !== undefined;
    },
  };
}
