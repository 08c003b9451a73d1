import { X } from "lucide-preact";
import { useEffect, useId, useRef, useState } from "preact/hooks";
import { forming } from "../../../records/live";
import { nameOf } from "../../../records/log/named";
import { useForm } from "../../../ui/form/draft-form";
import { SchemaFields } from "../../../ui/form/schema-sheet";
import { Button, orUndo } from "../../../ui/parts";
import { photos } from "../model";
import { captionForm } from "../model/caption";
import type { Photo } from "../model/photos";
import { NEVER_SENT, sayOrigin, sayWhere } from "./text";

export interface ViewerProps {
  photo: Photo;
  onClose: () => void;
}

/** One photo over the whole screen, with its caption, where it is, and the way to take it out. */
export function Viewer({ photo, onClose }: ViewerProps) {
  const ref = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => ref.current?.showModal(), []);
  const full = useFull(photo);
  return (
    <dialog ref={ref} class="viewer" aria-labelledby={id} onClose={onClose}>
      <div class="viewer__in">
        <div class="viewer__head">
          <h2 id={id}>Photo</h2>
          <Button tone="quiet" label="Close" onClick={() => ref.current?.close()}>
            <X aria-hidden="true" />
          </Button>
        </div>
        <div class="viewer__picture">
          <img
            src={full.address ?? photo.thumb}
            alt={photo.caption || "Photo without a caption"}
            width={photo.width}
            height={photo.height}
          />
        </div>
        <div class="viewer__foot">
          <Where photo={photo} full={full} />
          <Caption photo={photo} onGone={onClose} />
        </div>
      </div>
    </dialog>
  );
}

interface Full {
  /** Address of the full picture, once it is here. */
  address?: string;
  says?: string;
  /** Asks once more, where that may help. */
  again?: () => void;
}

/** The full picture: from this phone, else fetched. */
function useFull(photo: Photo): Full {
  const [full, setFull] = useState<Full>({});
  const [attempt, setAttempt] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the picture is known by its hash; a new attempt asks again
  useEffect(() => {
    let address: string | undefined;
    let wanted = true;
    setFull({});
    const again = () => setAttempt(attempt + 1);
    photos.open(photo).then((opened) => {
      if (!wanted) return;
      if (opened.kind === "never_sent") return setFull({ says: NEVER_SENT, again });
      if (opened.kind === "not_reached") return setFull({ says: opened.message, again });
      address = URL.createObjectURL(new Blob([opened.bytes], { type: "image/jpeg" }));
      setFull({ address });
    });
    return () => {
      wanted = false;
      if (address) URL.revokeObjectURL(address);
    };
  }, [photo.sha256, attempt]);
  return full;
}

function Where({ photo, full }: { photo: Photo; full: Full }) {
  const state = photos.stateOf(photo.sha256);
  const [why, setWhy] = useState<string | undefined>(undefined);
  useEffect(() => {
    if (state === "refused") void photos.why(photo.sha256).then((found) => setWhy(found?.message));
  }, [state, photo.sha256]);
  const trouble = state === "waiting" ? photos.trouble.value : why;
  const fetching = !full.address && !full.says;
  const says = full.says ?? (fetching ? "Fetching the full picture …" : sayWhere(state));
  return (
    <div class="stack">
      <p aria-live="polite">
        {says} {trouble}
      </p>
      {full.again ? (
        <div>
          <Button onClick={full.again}>Try again</Button>
        </div>
      ) : null}
    </div>
  );
}

/** The words under it, written anew at a tap; and the way out of the book. */
function Caption({ photo, onGone }: { photo: Photo; onGone: () => void }) {
  const [writing, write] = useState(false);
  const form = useForm(() => captionForm(forming, photos, photo), writing, undefined);
  const origin = sayOrigin(photo, nameOf(photo.by));
  async function remove(): Promise<void> {
    if (await orUndo(() => photos.remove(photo), "Photo removed.")) onGone();
  }
  if (form)
    return (
      <div class="stack">
        <SchemaFields form={form} onSaved={() => write(false)} />
        <Button onClick={() => write(false)}>Cancel</Button>
      </div>
    );
  return (
    <div class="stack">
      {photo.caption ? <p>{photo.caption}</p> : null}
      {origin ? <p class="quiet small">{origin}</p> : null}
      <div class="row">
        <Button onClick={() => write(true)}>{photo.caption ? "Edit the caption" : "Add a caption"}</Button>
        <Button tone="quiet" onClick={remove}>
          Remove
        </Button>
      </div>
    </div>
  );
}
