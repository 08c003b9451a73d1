/** Counting any product of the shed, from the log's page. */
import { useEffect, useState } from "preact/hooks";
import { type Typed, unitOf, unitsFor } from "../../../format";
import { allRead, parse, type Read } from "../../../forms/amount";
import { units } from "../../../platform/session/session";
import { checkGroup } from "../../../records/kinds";
import { nameOf } from "../../../records/log/named";
import type { SheetState } from "../../../records/log/registry";
import {
  Button,
  ChoiceField,
  Notice,
  NotSaved,
  Sheet,
  showToast,
  UnitField,
  useSaving,
} from "../../../ui/parts";
import { shed, stock } from "../model";

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
    setProduct(shed.products.peek()[0]?.id ?? "");
  }, [open]);
  const problemOf = (read: Read) =>
    read.ok
      ? checkGroup("entry", "stock_count", { product_id: product, left_kg: read.si }, system, {
          left_kg: left.unit,
        })["left_kg"]
      : read.message;
  const problem = problemOf(parse(left.amount, left.unit));
  async function save(event: Event): Promise<void> {
    event.preventDefault();
    setTried(true);
    await allRead();
    const read = parse(left.amount, left.unit);
    if (!read.ok || problemOf(read) || !product) return;
    if (!(await saving.run(() => stock.count(product, read.si, read.typed)))) return;
    onClose();
    showToast({ text: "Stock saved." });
  }
  return (
    <Sheet open={open} onClose={onClose} title="Count stock">
      {shed.products.value.length ? (
        <form class="stack" onSubmit={save} noValidate>
          <ChoiceField
            label="Product"
            look="list"
            value={product}
            onInput={setProduct}
            choices={shed.products.value.map((row) => ({
              value: row.id,
              label: nameOf(row.id) ?? "Unnamed product",
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
