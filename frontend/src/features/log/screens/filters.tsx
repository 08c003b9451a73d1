import type { Row } from "../../../platform/store/types";
import { labelOf } from "../../../records/log/registry";
import { Button, CheckField, ChoiceField } from "../../../ui/parts";
import { log } from "../model";
import type { Filters as Wanted } from "../model/log";
import { NO_FILTERS } from "../model/log";

function named(rows: readonly Row[], all: string) {
  const choices = rows.map((row) => ({
    value: row.id,
    label: String(row.groups["name"]?.value?.name ?? "Unnamed"),
  }));
  return [{ value: "", label: all }, ...choices.sort((a, b) => a.label.localeCompare(b.label))];
}

export function Filters() {
  const now = log.filters.value;
  const set = (part: Partial<Wanted>) => {
    log.filters.value = { ...now, ...part };
  };
  const kinds = log.kindsSeen.value.map((kind) => ({ value: kind, label: labelOf(kind) }));
  return (
    <details open={log.filtered.peek()}>
      <summary>{log.filtered.value ? "Filter: on" : "Filter"}</summary>
      <div class="stack">
        <div class="fields-2">
          <ChoiceField
            label="Kind"
            look="list"
            value={now.kind}
            onInput={(kind) => set({ kind })}
            choices={[{ value: "", label: "All kinds" }, ...kinds]}
          />
          <ChoiceField
            label="Zone"
            look="list"
            value={now.zone}
            onInput={(zone) => set({ zone })}
            choices={named(log.zones.value, "All zones")}
          />
          <ChoiceField
            label="Product"
            look="list"
            value={now.product}
            onInput={(product) => set({ product })}
            choices={named(log.products.value, "All products")}
          />
          <ChoiceField
            label="Person"
            look="list"
            value={now.person}
            onInput={(person) => set({ person })}
            choices={named(log.members.value, "Everyone")}
          />
        </div>
        <CheckField
          label="Show crossed-out entries"
          checked={now.struck}
          onInput={(struck) => set({ struck })}
        />
        {log.filtered.value ? (
          <Button
            onClick={() => {
              log.filters.value = NO_FILTERS;
            }}
          >
            Clear filters
          </Button>
        ) : null}
      </div>
    </details>
  );
}
