/** The way to a soil reading, of one zone or of the whole yard. */
import { useState } from "preact/hooks";
import { createEntryForm } from "../../../forms/entry-form";
import { forming } from "../../../records/live";
import { SchemaSheet } from "../../../ui/form/schema-sheet";
import { Button } from "../../../ui/parts";
import { reading } from "../entries/reading";

export function AddReading({ zoneIds, children }: { zoneIds: readonly string[]; children: string }) {
  const [open, setOpen] = useState(false);
  const { form } = reading;
  if (!form) return null;
  return (
    <>
      <Button onClick={() => setOpen(true)}>{children}</Button>
      <SchemaSheet
        open={open}
        onClose={() => setOpen(false)}
        make={() =>
          createEntryForm(forming, {
            kind: "reading",
            // Of the soil and of here, whatever was read the last time.
            words: { ...form, again: ["depth_mm", "error_c"] },
            from: () => ({ measures: "soil", zone_ids: [...zoneIds] }),
          })
        }
      />
    </>
  );
}
