import { useMemo, useState } from "preact/hooks";
import { offerUndo } from "../../../ui/parts";
import { photos } from "../model";
import type { Of } from "../model/photos";
import { PickPhoto } from "./pick";
import { Print } from "./prints";
import { sayPrint } from "./text";
import { Viewer } from "./viewer";
import "../style.css";

/** The photos of an entry or a zone, and the way to one more. */
export function Photos({ of, id }: { of: Of; id: string }) {
  const found = useMemo(() => photos.of(of, id), [of, id]);
  const [open, setOpen] = useState<string | undefined>(undefined);
  const all = found.value;
  const shown = all.find((photo) => photo.id === open);
  async function add(taken: Parameters<typeof photos.add>[2][number]): Promise<void> {
    const { back } = await photos.add(of, id, [taken]);
    offerUndo("Photo saved on this phone.", back);
  }
  return (
    <section class="section" aria-labelledby="photos">
      <h2 id="photos">Photos</h2>
      {all.length ? (
        <ul class="prints">
          {all.map((photo, at) => (
            <Print
              key={photo.id}
              thumb={photo.thumb}
              label={sayPrint(at + 1, all.length, photo.caption, photos.stateOf(photo.sha256))}
              state={photos.stateOf(photo.sha256)}
              onClick={() => setOpen(photo.id)}
            />
          ))}
        </ul>
      ) : null}
      <PickPhoto onTaken={add} />
      {shown ? <Viewer key={shown.id} photo={shown} onClose={() => setOpen(undefined)} /> : null}
    </section>
  );
}
