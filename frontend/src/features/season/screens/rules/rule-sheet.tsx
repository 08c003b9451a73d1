/** The sheet in which a rule of one's own is entered. */
import type { System } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { day, forming } from "../../../../records/live";
import { DraftForm, useForm } from "../../../../ui/form/draft-form";
import { FieldInput } from "../../../../ui/form/field-input";
import { Button, ChoiceField, NumberField, orUndo, Sheet, TextField } from "../../../../ui/parts";
import { rules } from "../../model";
import { kindOf, RULE_KINDS } from "../../model/rules/fields";
import {
  createRuleForm,
  fieldOf,
  filled,
  filledIn,
  MOST_LETTERS,
  type RuleDraft,
  type RuleForm,
  type RuleStart,
} from "../../model/rules/own-rule";
import { type DayTyped, MONTH_CHOICES } from "../../model/rules/year-day";
import { titleOf } from "./held";

/** "Nitrogen in a year" of one grass is entered from its own line. */
const KINDS = Object.entries(RULE_KINDS)
  .map(([value, { title }]) => ({ value, label: title }))
  .sort((a, b) => a.label.localeCompare(b.label));

const SORTS = [
  { value: "", label: "Both" },
  { value: "pre_emergent", label: "Pre-emergent" },
  { value: "post_emergent", label: "Weed killer" },
] as const;

export function RuleSheet({ start, onClose }: { start: RuleStart | undefined; onClose: () => void }) {
  const form = useForm(
    () => createRuleForm({ ...forming, day }, rules, start ?? { kind: "" }),
    !!start,
    undefined,
  );
  const chosen = start?.kind
    ? titleOf({ kind: start.kind, grass: start.from?.grass ?? null })
    : "A rule of your own";
  return (
    <Sheet open={!!start} onClose={onClose} title={chosen}>
      {form && start ? (
        <DraftForm of={form} base={undefined} save="Save the rule" saved="Rule saved." onSaved={onClose}>
          <p>Copy it from your label or local code. It takes the place of the printed rule.</p>
          {form.form.value ? <RuleFields of={form} now={form.form.value} open={!start.kind} /> : null}
          {start.kind && start.at === undefined ? <TurnOff start={start} onDone={onClose} /> : null}
        </DraftForm>
      ) : null}
    </Sheet>
  );
}

interface FieldsProps {
  of: RuleForm;
  now: RuleDraft;
  open: boolean;
}

function RuleFields({ of, now, open }: FieldsProps) {
  const { change, errors } = of;
  const system: System = units.value;
  const kind = kindOf(now.kind);
  return (
    <>
      {open ? (
        <ChoiceField
          label="About"
          look="list"
          value={now.kind}
          choices={[{ value: "", label: "Choose…" }, ...KINDS]}
          onInput={(to) => change({ kind: to })}
          error={errors.value["kind"]}
        />
      ) : null}
      {now.kind === "" ? null : (
        <>
          {kind.fields.map((field) => (
            <FieldInput
              key={`${now.kind}.${field.name}`}
              field={fieldOf(now.kind, field)}
              label={field.label}
              words={field.optional ? { hint: "Optional." } : {}}
              value={filled(now, field, system)}
              error={errors.value[field.name]}
              onInput={(to) => change(filledIn(now, field, to))}
            />
          ))}
          {kind.dated ? (
            <>
              <DayField
                label="First day"
                value={now.first}
                error={errors.value["from"]}
                onInput={(first) => change({ first })}
              />
              <DayField
                label="Last day"
                value={now.last}
                error={errors.value["to"]}
                onInput={(last) => change({ last })}
              />
            </>
          ) : null}
          {now.kind === "pesticide_ban" ? (
            <ChoiceField
              label="Which"
              value={now.sort as ""}
              choices={SORTS}
              onInput={(sort) => change({ sort })}
            />
          ) : null}
          <TextField
            label="Where it is printed"
            hint="Optional. Such as “County code, chapter 5”."
            value={now.printed}
            maxLength={MOST_LETTERS}
            onInput={(printed) => change({ printed })}
            error={errors.value["printed"]}
          />
        </>
      )}
    </>
  );
}

interface DayProps {
  label: string;
  value: DayTyped;
  error: string | undefined;
  onInput: (to: DayTyped) => void;
}

/** A day of every year: its month, and its number. */
function DayField({ label, value, error, onInput }: DayProps) {
  return (
    <div class="fields-2">
      <ChoiceField
        label={`${label}: month`}
        look="list"
        value={value.month}
        choices={[{ value: "", label: "Choose…" }, ...MONTH_CHOICES]}
        onInput={(month) => onInput({ ...value, month })}
        error={error}
      />
      <NumberField
        label={`${label}: day`}
        whole
        value={value.day}
        onInput={(day) => onInput({ ...value, day })}
      />
    </div>
  );
}

/** A printed rule that does not hold here: turned off at one tap, which can be undone. */
function TurnOff({ start, onDone }: { start: RuleStart; onDone: () => void }) {
  const { kind, from } = start;
  async function off(): Promise<void> {
    const rule = { kind, off: true, date: day(), ...(from?.grass ? { grass: from.grass } : {}) };
    const saved = await orUndo(async () => (await rules.saveOwn(rule)) ?? {}, "Rule turned off.");
    if (saved) onDone();
  }
  return (
    <div>
      <p class="quiet">Sure that it does not hold here?</p>
      <Button onClick={off}>Turn this rule off</Button>
    </div>
  );
}
