import { useState } from "preact/hooks";
import { date, mass } from "../../../format";
import { units } from "../../../platform/session/session";
import { forming } from "../../../records/live";
import { SchemaSheet } from "../../../ui/form/schema-sheet";
import { Button, Figure } from "../../../ui/parts";
import { shed } from "../model";
import { countForm } from "../model/count";

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
      <SchemaSheet open={open} onClose={() => setOpen(false)} make={() => countForm(forming, id)} />
    </section>
  );
}
