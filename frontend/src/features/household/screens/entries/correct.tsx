/** Mending an entry that was set aside: a plain form of its fields, what was wrong beside each. */
import { useRef, useState } from "preact/hooks";
import { useLocation } from "wouter-preact";
import { units } from "../../../../platform/session/session";
import { mendParked, newId, type ParkedRow } from "../../../../platform/store";
import { syncNow } from "../../../../platform/sync/running";
import { nameOf } from "../../../../records/log/named";
import { Button, Empty, Notice, NotSaved, Page, showToast, useSaving } from "../../../../ui/parts";
import { household } from "../../model";
import { type Filled, isPending, mend, mendFields, needsNewId } from "../../model/rejected";
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

/** Errors by field key, after a try to send. */
type Wrong = Record<string, string>;

function MendForm({ row }: { row: ParkedRow }) {
  const form = useRef<HTMLFormElement>(null);
  const [filled, setFilled] = useState<Record<string, Filled>>({});
  const [wrong, setWrong] = useState<Wrong | undefined>(undefined);
  const [problem, setProblem] = useState("");
  const [, go] = useLocation();
  const saving = useSaving();
  const fields = mendFields(row, units.value);

  async function send(event: Event): Promise<void> {
    event.preventDefault();
    const done = mend(row, filled, units.value, newId);
    setWrong("wrong" in done ? done.wrong : {});
    // After the errors are drawn, the focus goes to the first field that needs another look.
    if ("wrong" in done) {
      const shown = new Set(fields.map(({ key }) => key));
      const unseen = Object.entries(done.wrong).filter(([key]) => !shown.has(key));
      setProblem(unseen.map(([, says]) => says).join(" "));
      setTimeout(() => form.current?.querySelector<HTMLElement>("[aria-invalid='true']")?.focus(), 0);
      return;
    }
    if (!(await saving.run(() => mendParked(row, done.mutations)))) return;
    syncNow();
    go("/household/entries");
    showToast({ text: "Fixed and sent again." });
  }

  return (
    <form class="stack" ref={form} onSubmit={send} noValidate aria-label="Fix an entry">
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
            error={wrong ? wrong[field.key] : field.error}
            onInput={(now) => setFilled({ ...filled, [field.key]: now })}
          />
        ))
      ) : (
        <p>Nothing in it can be edited in this version of the app. You can send it again.</p>
      )}
      <details>
        <summary>All details</summary>
        <Facts facts={sayFacts(row.m, { system: units.value, nameOf: nameOf })} />
      </details>
      <div aria-live="assertive">{problem ? <Notice kind="bad">{problem}</Notice> : null}</div>
      <NotSaved of={saving} />
      <Button type="submit" tone="signal" wide busy={saving.busy.value}>
        Send it again
      </Button>
    </form>
  );
}
