import { useState } from "preact/hooks";
import { date, mass } from "../../../format";
import { units } from "../../../platform/session/session";
import { forming } from "../../../records/live";
import { SchemaSheet } from "../../../ui/form/schema-sheet";
import { Button, Figure } from "../../../ui/parts";
import { shed } from "../model";
import { buyForm } from "../model/buy";
import { countForm } from "../model/count";

/** What is left in the shed, and the count that says so. */
export function StockCount({ id }: { id: string }) {
  const [open, setOpen] = useState(false);
  const [buying, setBuying] = useState(false);
  const product = shed.row("product", id).value;
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
          note={sayFrom(counted, found?.bought_since_kg ?? 0)}
          working={left ? shed.totals.value?.working?.filter((step) => step.of === id) : undefined}
        />
        <Button onClick={() => setOpen(true)}>Count it</Button>
        {product ? <Button onClick={() => setBuying(true)}>Bought</Button> : null}
      </div>
      <SchemaSheet open={open} onClose={() => setOpen(false)} make={() => countForm(forming, id)} />
      {product ? (
        <SchemaSheet open={buying} onClose={() => setBuying(false)} make={() => buyForm(forming, product)} />
      ) : null}
    </section>
  );
}

/** Where counting began: at a count, else at the first purchase. */
function sayFrom(counted: string | null | undefined, bought_kg: number): string | undefined {
  if (counted && bought_kg > 0)
    return `counted ${date(counted)}, plus what you bought and minus what you used since`;
  if (counted) return `counted ${date(counted)}, minus what you used since`;
  return bought_kg > 0 ? "what you bought, minus what you used since. Count it to be sure." : undefined;
}
