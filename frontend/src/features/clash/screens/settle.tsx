import { createSchemaForm, type FormWords } from "../../../forms/schema-form";
import { forming } from "../../../records/live";
import { SchemaSheet } from "../../../ui/form/schema-sheet";
import type { Clash } from "../model/clashes";
import { clashes } from "../model/clashing";

interface SettleProps {
  clash: Clash;
  title: string;
  open: boolean;
  onClose: () => void;
}

const words = (title: string): FormWords => ({
  title,
  says: "Both entries stay and count. The warning goes away.",
  save: "Resolve",
  saved: "Resolved on every phone.",
  fields: { note: { label: "Note (optional)" } },
});

/** Both entries stay as they are; the household has seen it. */
export function SettleSheet({ clash, title, open, onClose }: SettleProps) {
  const make = () =>
    createSchemaForm(forming, {
      key: `settlement-form:${clash.key}`,
      t: "settlement",
      group: "settled",
      words: words(title),
      given: { clash: clash.key },
      write: (value) => clashes.settle(clash, String(value["note"] ?? "")),
    });
  return <SchemaSheet open={open} onClose={onClose} make={make} />;
}
