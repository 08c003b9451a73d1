/** Place and rules: where the yard is, which rules then hold, and the household's own instead. */
import { useState } from "preact/hooks";
import { sayRefusal } from "../../../../forms/refusal";
import { useEngine } from "../../../../platform/engine";
import { units } from "../../../../platform/session/session";
import type { RulesValue } from "../../../../records/limits/rules";
import { Button, Notice, Page, Sheet, Working } from "../../../../ui/parts";
import { rules } from "../../model";
import type { RuleStart } from "../../model/rules/own-rule";
import { HeldRules } from "./held";
import { OwnRules } from "./own";
import { PlacePart } from "./place";
import { RuleSheet } from "./rule-sheet";

export default function RulesPage() {
  const { answer } = useEngine("limits.rules", rules.loaded.value ? rules.args.value : null);
  const [start, setStart] = useState<RuleStart | undefined>(undefined);
  const found = answer?.value;
  return (
    <Page title="Place and rules" back="/season" backLabel="Back to Season">
      <PlacePart value={found} />
      {found ? <Notice>{found.not_the_law}</Notice> : null}
      {answer?.error ? <Notice kind="bad">{sayRefusal(answer.error, units.value)}</Notice> : null}
      <OwnRules value={found} open={setStart} />
      {found ? <HeldRules value={found} open={setStart} /> : answer ? null : <p class="quiet">…</p>}
      <Why value={found} working={answer?.working} />
      <RuleSheet start={start} onClose={() => setStart(undefined)} />
    </Page>
  );
}

interface WhyProps {
  value: RulesValue | undefined;
  working: Parameters<typeof Working>[0]["steps"] | undefined;
}

function Why({ value, working }: WhyProps) {
  const [open, setOpen] = useState(false);
  if (!value || !working?.length) return null;
  return (
    <div>
      <Button tone="quiet" onClick={() => setOpen(true)}>
        How this is worked out
      </Button>
      <Sheet open={open} onClose={() => setOpen(false)} title="How this is worked out">
        <Working steps={working} />
      </Sheet>
    </div>
  );
}
