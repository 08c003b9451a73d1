import { useState } from "preact/hooks";
import { date, mass, type Typed, unitOf, unitsFor } from "../../../format";
import { allRead, parse } from "../../../forms/amount";
import { units } from "../../../platform/session/session";
import { checkGroup } from "../../../records/kinds";
import { Button, Figure, NotSaved, Sheet, showToast, UnitField, useSaving } from "../../../ui/parts";
import { shed, stock } from "../model";

/** What is left in the shed, and the count that says so. */
export function StockCount({ id }: { id: string }) {
  const [open, setOpen] = useState(false);
  const found = shed.totals.value?.value?.products[id];
  const left = shed.leftKg(id);
  const counted = found?.counted_at;
  return (
    <section class="section" aria-labelledby="stock">
      <h2 id="stock">In the shed</h2>
      <div class="shed__stock">
        <Figure
          label="Left"
          value={left === undefined ? "…" : left === null ? "Not counted" : mass(left, units.value).text}
          note={counted ? `counted ${date(counted)}, minus what you used since` : undefined}
          working={left ? shed.totals.value?.working?.filter((step) => step.of === id) : undefined}
        />
        <Button onClick={() => setOpen(true)}>Count it</Button>
      </div>
      <CountSheet id={id} open={open} onClose={() => setOpen(false)} />
    </section>
  );
}

function CountSheet({ id, open, onClose }: { id: string; open: boolean; onClose: () => void }) {
  const [written, setTyped] = useState<Typed>({ amount: "", unit: "" });
  // The person's own unit until they choose one: this page may be drawn before their record is read.
  const typed = { ...written, unit: written.unit || unitOf("mass", units.value).key };
  const [error, setError] = useState<string | undefined>(undefined);
  const saving = useSaving();
  async function count(): Promise<void> {
    await allRead();
    const read = parse(typed.amount, typed.unit);
    if (!read.ok) return setError(read.message);
    const asked = { product_id: id, left_kg: read.si };
    const wrong = checkGroup("entry", "stock_count", asked, units.value, { left_kg: typed.unit })["left_kg"];
    if (wrong) return setError(`${wrong} Enter 0 if none is left.`);
    setError(undefined);
    if (!(await saving.run(() => stock.count(id, read.si, read.typed)))) return;
    setTyped({ ...typed, amount: "" });
    onClose();
    showToast({ text: "Stock saved." });
  }
  return (
    <Sheet
      open={open}
      onClose={onClose}
      title="Count what is left"
      actions={
        <Button tone="signal" busy={saving.busy.value} onClick={count}>
          Save the count
        </Button>
      }
    >
      <UnitField
        label="In the shed now"
        hint="All bags together. Estimate open bags."
        value={typed}
        units={unitsFor("mass", units.value)}
        onInput={setTyped}
        error={error}
      />
      <NotSaved of={saving} />
    </Sheet>
  );
}
