/** A year of the log as a file for a spreadsheet. */
import { useState } from "preact/hooks";
import { download, fileName } from "../../../platform/download";
import { session } from "../../../platform/session/session";
import { store } from "../../../records/live";
import { nameOf } from "../../../records/log/named";
import { Button, ChoiceField, Notice, Sheet } from "../../../ui/parts";
import { log } from "../model";
import { tableOf, yearsOf } from "../model/table";

export function SaveTable({ open, onClose }: { open: boolean; onClose: () => void }) {
  const years = yearsOf(log.entries.value);
  const [chosen, setChosen] = useState<string>();
  const [says, setSays] = useState("");
  const year = chosen ?? years[0] ?? "";
  function save(): void {
    try {
      const book = session.value?.household.name ?? "";
      download(
        fileName(book, `-log-${year || "all"}.csv`),
        tableOf(store.rows("entry").peek(), year, nameOf),
        "text/csv;charset=utf-8",
      );
      onClose();
    } catch {
      setSays("Not saved. Free some space on this phone and try again.");
    }
  }
  return (
    <Sheet open={open} onClose={onClose} title="Save the log as a table">
      <div class="stack">
        <p class="quiet">A CSV file for any spreadsheet. Figures are metric. No signal needed.</p>
        <ChoiceField
          label="Year"
          look="list"
          value={year}
          onInput={setChosen}
          choices={[...years.map((one) => ({ value: one, label: one })), { value: "", label: "All years" }]}
        />
        <div aria-live="polite">{says ? <Notice kind="bad">{says}</Notice> : null}</div>
        <div>
          <Button onClick={save}>Save the table</Button>
        </div>
      </div>
    </Sheet>
  );
}
