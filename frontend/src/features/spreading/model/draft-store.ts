/**
 * The job's draft: what is seen of it and how it is kept. Writes go to the phone one after another, each with the newest
 * state, so that an earlier one never overwrites a later one.
 */
import { signal } from "@preact/signals";
import { sayNotSaved } from "../../../forms/saving";
import type { Store } from "../../../platform/store/types";
import { rest } from "../../../records/rest";
import { SPREAD_KEY } from "./key";
import type { SpreadDraft } from "./types";

export type Change = (draft: SpreadDraft) => SpreadDraft;

export function createKeeper({ drafts }: Store, refuse: (message: string) => void) {
  const draft = signal<SpreadDraft | null | undefined>(undefined);
  let writing: Promise<unknown> = Promise.resolve();

  function inTurn<T>(work: () => Promise<T>): Promise<T> {
    const mine = writing.then(work);
    writing = mine.catch(() => undefined);
    return mine;
  }

  /** Shown at once and kept right after: for what is typed. */
  function show(change: Change): Promise<void> {
    if (draft.value) draft.value = change(draft.value);
    return inTurn(async () => {
      try {
        if (draft.value) await drafts.put(SPREAD_KEY, draft.value);
      } catch (error) {
        refuse(sayNotSaved(error));
      }
    });
  }

  /**
   * Kept first, then shown: for steps that must not be lost once they are seen. Typing meanwhile is kept too. False where
   * the phone refused to keep it; the step is then not made. Either way the thumb rests: another page lies under it.
   */
  const settle = (change: Change) => rest.during(() => settled(change));

  function settled(change: Change): Promise<boolean> {
    return inTurn(async () => {
      if (!draft.value) return false;
      try {
        await drafts.put(SPREAD_KEY, change(draft.value));
      } catch (error) {
        refuse(sayNotSaved(error));
        return false;
      }
      if (draft.value) draft.value = change(draft.value);
      return true;
    });
  }

  async function open(read: (kept: unknown) => SpreadDraft | null): Promise<void> {
    draft.value = undefined;
    await writing;
    draft.value = read(await drafts.get(SPREAD_KEY));
  }

  /** Takes the draft away for good, after all that is being written. */
  async function drop(): Promise<SpreadDraft | null> {
    const last = draft.value ?? null;
    await rest.during(() => inTurn(() => drafts.remove(SPREAD_KEY)));
    draft.value = null;
    return last;
  }

  /** A draft put away by mistake, back as it was; not over another one. */
  async function restore(last: SpreadDraft): Promise<void> {
    await rest.during(() =>
      inTurn(async () => {
        if ((await drafts.get(SPREAD_KEY)) === undefined) await drafts.put(SPREAD_KEY, last);
      }),
    );
  }

  return { draft, show, settle, open, drop, restore };
}

export type Keeper = ReturnType<typeof createKeeper>;
