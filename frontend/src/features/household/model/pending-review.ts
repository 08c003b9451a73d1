/** What former members' phones handed in after their removal: held until a keeper accepts or declines it (S22). */
import { computed, signal } from "@preact/signals";
import type { OpResult } from "../../../platform/store/core/records";
import type { SentMutation, Verdict } from "../../../platform/store/types";
import { createRemote, type RemoteParts } from "../../../platform/sync/remote";

export interface PendingEntry {
  id: string;
  member_id: string;
  member_name: string;
  device_id: string;
  received_at: string;
  hlc: string;
  m: SentMutation[];
  why: Verdict;
}

/** How an acceptance ended: in the book, or why it still could not be taken. */
export type Accepted = "in" | { refused: string } | undefined;

export function createPendingReview(parts: RemoteParts & { synced: () => void }) {
  /** Where the page looked at begins, and the one after it; what is held comes in pages. */
  let from: string | null = null;
  const next = signal<string | null>(null);
  const remote = createRemote(
    parts,
    () => (from === null ? "pending-review" : `pending-review?after=${encodeURIComponent(from)}`),
    (answer: { pending_review: PendingEntry[]; after?: string | null }) => {
      next.value = answer.after ?? null;
      return answer.pending_review;
    },
  );

  /** The list from its beginning. */
  async function look(): Promise<void> {
    from = null;
    await remote.look();
  }

  async function lookOn(): Promise<void> {
    from = next.value;
    await remote.look();
  }

  async function accept(id: string): Promise<Accepted> {
    const done = await remote.act<OpResult>(id, `pending-review/${id}/accept`);
    if (!done) return undefined;
    parts.synced();
    const { s, was, why } = done.answer ?? {};
    return s === "parked" || was === "parked" ? { refused: why?.message ?? "It could not be taken." } : "in";
  }

  return {
    ...remote,
    look,
    /** Whether more is held than is shown. */
    more: computed(() => next.value !== null),
    lookOn,
    accept,
    /** Left out of the book; the server keeps it, whole and marked. */
    decline: async (id: string) => (await remote.act(id, `pending-review/${id}/decline`)) !== undefined,
    /** One after another, in the order they came; stops where the server does not answer. How many went in. */
    async acceptAll(): Promise<{ taken: number; refused: number }> {
      let [taken, refused] = [0, 0];
      for (const { id } of remote.value.value ?? []) {
        const ended = await accept(id);
        if (ended === undefined) break;
        if (ended === "in") taken += 1;
        else refused += 1;
      }
      return { taken, refused };
    },
    async declineAll(): Promise<number> {
      let declined = 0;
      for (const { id } of remote.value.value ?? []) {
        if (!(await remote.act(id, `pending-review/${id}/decline`))) break;
        declined += 1;
      }
      return declined;
    },
  };
}
