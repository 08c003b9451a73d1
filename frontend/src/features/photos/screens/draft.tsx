import { X } from "lucide-preact";
import { useMemo } from "preact/hooks";
import type { Taken } from "../../../platform/photos/take";
import { store } from "../../../platform/store";
import { Button } from "../../../ui/parts";
import { PickPhoto } from "./pick";
import "../style.css";

/** As many as one entry takes in one go: they travel with it, each with its thumbnail. */
const MOST = 6;

export interface PhotoDraft {
  taken: readonly Taken[];
  add: (taken: Taken) => Promise<void>;
  drop: (at: number) => void;
}

/** Photos of an entry that is still being written: kept on the phone through a call or a dead battery, as its words are. */
export function usePhotoDraft(key: string): PhotoDraft {
  // Shown once it is kept: what is to be seen outlives the page.
  const kept = useMemo(() => store.drafts.watch<Taken[]>(key), [key]);
  const taken = kept.value ?? [];
  const keep = (next: readonly Taken[]) => store.drafts.put(key, next);
  return {
    taken,
    add: (one) => keep([...taken.filter(({ sha256 }) => sha256 !== one.sha256), one]),
    drop: (at) => void keep(taken.filter((_, other) => other !== at)),
  };
}

/** The photos of a form: small prints with a way to drop each, and the way to one more. */
export function PhotoDraftField({ draft }: { draft: PhotoDraft }) {
  return (
    <fieldset class="field">
      <legend class="field__label">Photos</legend>
      {draft.taken.length ? (
        <ul class="prints">
          {draft.taken.map(({ sha256, thumb }, at) => (
            <li key={sha256} class="prints__draft">
              <span class="print">
                <img src={`data:image/jpeg;base64,${thumb}`} alt={`Print ${at + 1}`} width="88" height="88" />
              </span>
              <Button tone="quiet" label={`Remove photo ${at + 1}`} onClick={() => draft.drop(at)}>
                <X aria-hidden="true" size={18} />
              </Button>
            </li>
          ))}
        </ul>
      ) : null}
      {draft.taken.length < MOST ? (
        <PickPhoto onTaken={draft.add} />
      ) : (
        <p class="quiet">{MOST} photos at most.</p>
      )}
    </fieldset>
  );
}
