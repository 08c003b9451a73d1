import { useState } from "preact/hooks";
import { session } from "../../../platform/session/session";
import { groupOf } from "../../../records/groups";
import { fieldsOf } from "../../../records/kinds";
import { forming, store } from "../../../records/live";
import { NIGHTS } from "../../../records/mowing/rhythm";
import { SchemaSheet } from "../../../ui/form/schema-sheet";
import { Button } from "../../../ui/parts";
import { rhythmForm } from "../model/rhythm";

/** The nights this household mows, to look at; the form opens over it. */
export function Rhythm() {
  const [open, setOpen] = useState(false);
  const id = session.value?.household.id;
  const row = id ? store.row("household", id).value : undefined;
  if (!id) return null;
  const nights = row ? groupOf("household", row, "rhythm") : {};
  const labels = fieldsOf("household", "rhythm");
  const said = NIGHTS.filter((name) => nights[name]).map((name) => labels[name]?.label ?? name);
  return (
    <section class="section" aria-labelledby="rhythm">
      <h2 id="rhythm">Mowing nights</h2>
      <p>{said.length ? said.join(", ") : "Not set. Say when you usually mow."}</p>
      <div>
        <Button onClick={() => setOpen(true)}>
          {said.length ? "Edit the mowing nights" : "Set the mowing nights"}
        </Button>
      </div>
      <SchemaSheet open={open} onClose={() => setOpen(false)} make={() => rhythmForm(forming, id)} />
    </section>
  );
}
