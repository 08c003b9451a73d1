import { useEffect, useState } from "preact/hooks";
import { isoMoment, parse, type Typed, unitOf, unitsFor } from "../../../format";
import { momentFromLocal, whenTrouble } from "../../../format/moment";
import { units } from "../../../platform/session/session";
import { store } from "../../../platform/store";
import { checkGroup } from "../../../records/kinds";
import {
  Button,
  CheckField,
  ChoiceField,
  Notice,
  NotSaved,
  Sheet,
  showToast,
  TextField,
  UnitField,
  useSaving,
} from "../../../ui/parts";
import { PhotoDraftField, usePhotoDraft } from "../../photos/screens/draft";
import { log } from "../model";

interface SheetState {
  open: boolean;
  onClose: () => void;
}

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
                label={log.nameOf(row.id) ?? "Unnamed zone"}
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

/** The unit is the person's own until they choose one: their record may not be read yet. */
const NOTHING: Typed = { amount: "", unit: "" };

export function CountSheet({ open, onClose }: SheetState) {
  const system = units.value;
  const [product, setProduct] = useState("");
  const [written, setLeft] = useState<Typed>(NOTHING);
  const left = { ...written, unit: written.unit || unitOf("mass", system).key };
  const [tried, setTried] = useState(false);
  const saving = useSaving();
  useEffect(() => {
    if (!open) return;
    setTried(false);
    setLeft(NOTHING);
    setProduct(log.products.peek()[0]?.id ?? "");
  }, [open]);
  const read = parse(left.amount, left.unit);
  const problem = read.ok
    ? checkGroup("entry", "stock_count", { product_id: product, left_kg: read.si }, system, {
        left_kg: left.unit,
      })["left_kg"]
    : read.message;
  async function save(event: Event): Promise<void> {
    event.preventDefault();
    setTried(true);
    if (!read.ok || problem || !product) return;
    if (!(await saving.run(() => log.countStock(product, read.si, read.typed)))) return;
    onClose();
    showToast({ text: "Stock saved." });
  }
  return (
    <Sheet open={open} onClose={onClose} title="Count stock">
      {log.products.value.length ? (
        <form class="stack" onSubmit={save} noValidate>
          <ChoiceField
            label="Product"
            look="list"
            value={product}
            onInput={setProduct}
            choices={log.products.value.map((row) => ({
              value: row.id,
              label: log.nameOf(row.id) ?? "Unnamed product",
            }))}
          />
          <UnitField
            label="In the shed now"
            hint="All bags together. Estimate open bags. 0 if none is left."
            units={unitsFor("mass", system)}
            value={left}
            onInput={setLeft}
            error={tried ? problem : undefined}
          />
          <NotSaved of={saving} />
          <Button type="submit" tone="signal" wide busy={saving.busy.value}>
            Save the count
          </Button>
        </form>
      ) : (
        <Notice title="No product in the shed yet">
          <p>Add a product first. Then you can count it.</p>
          <Button href="/shed/product/new">Add a product</Button>
        </Notice>
      )}
    </Sheet>
  );
}
