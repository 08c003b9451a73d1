import { Camera, ImagePlus } from "lucide-preact";
import { useState } from "preact/hooks";
import { sayNotSaved } from "../../../forms/saving";
import type { Taken } from "../../../platform/photos/take";
import { photos } from "../model";
import { NOT_A_PICTURE } from "./text";

export interface PickPhotoProps {
  /** Called with each picture read; what it raises is said to the person. */
  onTaken: (taken: Taken) => Promise<void>;
}

/** Two ways to a photo: the camera, and what is on the phone already. */
export function PickPhoto({ onTaken }: PickPhotoProps) {
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<string | undefined>(undefined);
  async function pick(input: HTMLInputElement): Promise<void> {
    const files = [...(input.files ?? [])];
    setBusy(true);
    setTrouble(undefined);
    try {
      for (const file of files) await one(file);
    } finally {
      input.value = "";
      setBusy(false);
    }
  }
  async function one(file: File): Promise<void> {
    const taken = await photos.take(file).catch(() => undefined);
    if (!taken) return setTrouble(`${file.name} ${NOT_A_PICTURE}`);
    await onTaken(taken).catch((error: unknown) => setTrouble(sayNotSaved(error)));
  }
  return (
    <div class="field">
      <div class="halves picks">
        <Pick says="Take a photo" icon={Camera} busy={busy} capture="environment" onPick={pick} />
        <Pick says="Choose one" more="from this phone" icon={ImagePlus} busy={busy} onPick={pick} />
      </div>
      <span aria-live="polite">
        {busy ? <span class="quiet">Reading the picture …</span> : null}
        {trouble ? <span class="field__error">{trouble}</span> : null}
      </span>
    </div>
  );
}

interface PickProps {
  says: string;
  /** The rest of what it says, for ears. */
  more?: string;
  icon: typeof Camera;
  busy: boolean;
  capture?: "environment";
  onPick: (input: HTMLInputElement) => void;
}

function Pick({ says, more, icon: Icon, busy, capture, onPick }: PickProps) {
  return (
    <label class="button pick" aria-busy={busy}>
      <Icon aria-hidden="true" size={20} />
      {says}
      {more ? <span class="sr">{more}</span> : null}
      <input
        type="file"
        accept="image/*"
        capture={capture}
        disabled={busy}
        onChange={(event) => onPick(event.currentTarget)}
      />
    </label>
  );
}
