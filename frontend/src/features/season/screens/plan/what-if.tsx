/** What one other wish would do to the kept plan: solved beside it, to keep or to drop. */
import { useState } from "preact/hooks";
import { MONTHS } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { Button, ChoiceField, NumberField, Sheet } from "../../../../ui/parts";
import { lookAside, standingWishes } from "../../model/plan";
import { type WhatIfDraft, type WhatIfKind, whatIf } from "../../model/plan/what-if";

const KINDS: readonly { value: WhatIfKind; label: string }[] = [
  { value: "skip", label: "Skip a month" },
  { value: "gentle", label: "Only gentle products" },
  { value: "budget", label: "Spend at most" },
  { value: "evenings", label: "Evenings a week" },
];
const MONTH_CHOICES = MONTHS.map((label, at) => ({ value: String(at + 1), label }));
const START: WhatIfDraft = { kind: "skip", month: "5", budget: "", evenings: "2" };

export function WhatIf() {
  const [open, setOpen] = useState(false);
  const close = () => setOpen(false);
  return (
    <>
      <Button onClick={() => setOpen(true)}>Try a what-if</Button>
      <Sheet open={open} onClose={close} title="What if">
        {open ? <Ask close={close} /> : null}
      </Sheet>
    </>
  );
}

function Ask({ close }: { close: () => void }) {
  const [draft, setDraft] = useState(START);
  const [error, setError] = useState<string>();
  const change = (part: Partial<WhatIfDraft>) => {
    setError(undefined);
    setDraft({ ...draft, ...part });
  };
  const ask = (event: Event) => {
    event.preventDefault();
    const found = whatIf(draft, standingWishes.peek(), units.value);
    if ("error" in found) return setError(found.error);
    lookAside(found);
    close();
  };
  return (
    <form class="stack" onSubmit={ask} noValidate>
      <ChoiceField label="Change" value={draft.kind} choices={KINDS} onInput={(kind) => change({ kind })} />
      {draft.kind === "skip" ? (
        <ChoiceField
          label="Month"
          look="list"
          value={draft.month}
          choices={MONTH_CHOICES}
          onInput={(month) => change({ month })}
        />
      ) : null}
      {draft.kind === "budget" ? (
        <NumberField
          label="Spend at most"
          value={draft.budget}
          error={error}
          onInput={(budget) => change({ budget })}
        />
      ) : null}
      {draft.kind === "evenings" ? (
        <NumberField
          label="Evenings a week"
          whole
          value={draft.evenings}
          error={error}
          onInput={(evenings) => change({ evenings })}
        />
      ) : null}
      <Button type="submit" tone="signal">
        Show the changes
      </Button>
    </form>
  );
}
