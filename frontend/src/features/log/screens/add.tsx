import { useEffect, useState } from "preact/hooks";
import { isoMoment } from "../../../format";
import { momentFromLocal } from "../../../format/moment";
import { whenTrouble } from "../../../forms/when";
import { units } from "../../../platform/session/session";
import { store } from "../../../platform/store";
import { checkGroup } from "../../../records/kinds";
import { nameOf } from "../../../records/log/named";
import type { SheetState } from "../../../records/log/registry";
import { Button, CheckField, NotSaved, Sheet, showToast, TextField, useSaving } from "../../../ui/parts";
import { PhotoDraftField, usePhotoDraft } from "../../photos";
import { log } from "../model";

interface Seen {
  text: string;
  zones: string[];
  when: string;
}

/** What was seen is kept as a draft while it is written: a call or a dead battery loses nothing. */
const DRAFT = "log:seen";
const DRAFT_PHOTOS = "log:seen:photos";

export function ObserveSheet({ open, onClose }: SheetState) {
  const [form, setForm] = useState<Seen>({ text: "", zones: [], when: "" });
  const [tried, setTried] = useState(false);
  const saving = useSaving();
  const photos = usePhotoDraft(DRAFT_PHOTOS, open);
  useEffect(() => {
    if (!open) return;
    setTried(false);
    const fresh = { text: "", zones: [], when: isoMoment().slice(0, 16) };
    void store.drafts.get<Seen>(DRAFT).then((kept) => setForm(kept ?? fresh));
  }, [open]);
  const set = (part: Partial<Seen>) => {
    const next = { ...form, ...part };
    setForm(next);
    void store.drafts.put(DRAFT, next).catch(() => undefined);
  };
  const problem = form.text.trim()
    ? checkGroup("entry", "observation", { text: form.text }, units.value)["text"]
    : "Enter a few words.";
  const when = momentFromLocal(form.when);
  const whenWrong = whenTrouble(form.when, units.value);
  async function save(event: Event): Promise<void> {
    event.preventDefault();
    setTried(true);
    if (problem || !when || whenWrong) return;
    if (!(await saving.run(() => log.observe(form.text.trim(), form.zones, when, photos.taken)))) return;
    // It is in the book: a draft that cannot be removed now is no reason to save it twice.
    await Promise.all([store.drafts.remove(DRAFT), photos.clear()]).catch(() => undefined);
    onClose();
    showToast({ text: "Saved in the log." });
  }
  return (
    <Sheet open={open} onClose={onClose} title="Add observation">
      <form class="stack" onSubmit={save} noValidate>
        <TextField
          label="What you noticed"
          multiline
          maxLength={4000}
          value={form.text}
          onInput={(text) => set({ text })}
          error={tried ? problem : undefined}
        />
        {log.zones.value.length ? (
          <fieldset class="field">
            <legend class="field__label">Zones (leave blank for the whole yard)</legend>
            {log.zones.value.map((row) => (
              <CheckField
                key={row.id}
                label={nameOf(row.id) ?? "Unnamed zone"}
                checked={form.zones.includes(row.id)}
                onInput={(on) =>
                  set({ zones: on ? [...form.zones, row.id] : form.zones.filter((id) => id !== row.id) })
                }
              />
            ))}
          </fieldset>
        ) : null}
        <TextField
          label="When"
          type="datetime-local"
          value={form.when}
          onInput={(text) => set({ when: text })}
          error={tried ? whenWrong : undefined}
        />
        <PhotoDraftField draft={photos} />
        <NotSaved of={saving} />
        <Button type="submit" tone="signal" wide busy={saving.busy.value}>
          Save
        </Button>
      </form>
    </Sheet>
  );
}
