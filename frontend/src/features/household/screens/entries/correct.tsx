/** Mending an entry that was set aside: a plain form of its fields, what was wrong beside each. */
import { useLocation } from "wouter-preact";
import { units } from "../../../../platform/session/session";
import { mendParked, type ParkedRow } from "../../../../platform/store";
import { syncNow } from "../../../../platform/sync/running";
import { forming } from "../../../../records/live";
import { nameOf } from "../../../../records/log/named";
import { DraftForm, useForm } from "../../../../ui/form/draft-form";
import { Button, Empty, Notice, Page } from "../../../../ui/parts";
import { household } from "../../model";
import { createMendForm, isPending, mendFields, needsNewId } from "../../model/rejected";
import { Facts } from "../facts";
import { sayFacts, sayItems } from "../text";
import { MendInput } from "./correct-field";

export function MendPage({ op }: { op: string }) {
  const row = household.standing.value.parked.find((one) => one.op === op);
  return (
    <Page title="Fix an entry" back="/household/entries" backLabel="Back to Saved and sent">
      {row && !isPending(row) ? (
        <MendForm row={row} />
      ) : (
        <Empty
          title="Nothing to fix here"
          action={<Button href="/household/entries">Go to Saved and sent</Button>}
        >
          This entry no longer needs fixing on this phone.
        </Empty>
      )}
    </Page>
  );
}

function MendForm({ row }: { row: ParkedRow }) {
  const [, go] = useLocation();
  const form = useForm(() => createMendForm({ ...forming, send: mendParked }, row), true, undefined);
  const fields = mendFields(row, units.value);
  if (!form) return null;
  const filled = form.form.value ?? {};
  const errors = form.errors.value;
  const shown = new Set(fields.map(({ key }) => key));
  const unseen = Object.entries(errors).filter(([key]) => !shown.has(key));
  function sent(): void {
    syncNow();
    go("/household/entries");
  }
  return (
    <DraftForm
      of={form}
      base={undefined}
      label="Fix an entry"
      save="Send it again"
      saved="Fixed and sent again."
      onSaved={sent}
    >
      <h2>{sayItems(row.m, nameOf)}</h2>
      <Notice kind="warn" title="Why it needs fixing">
        <p>{row.why.message}</p>
        {needsNewId(row) ? <p>It is added as a new entry. The other one stays.</p> : null}
      </Notice>
      {fields.length ? (
        fields.map((field) => (
          <MendInput
            key={field.key}
            field={field}
            value={filled[field.key] ?? field.start}
            error={form.tried.value ? errors[field.key] : field.error}
            onInput={(now) => form.change({ [field.key]: now })}
          />
        ))
      ) : (
        <p>Nothing in it can be edited in this version of the app. You can send it again.</p>
      )}
      <details>
        <summary>All details</summary>
        <Facts facts={sayFacts(row.m, { system: units.value, nameOf: nameOf })} />
      </details>
      {unseen.length ? <Notice kind="bad">{unseen.map(([, says]) => says).join(" ")}</Notice> : null}
    </DraftForm>
  );
}
