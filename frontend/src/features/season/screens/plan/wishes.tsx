/** The wishes that a plan starts from. */
import { MONTHS } from "../../../../format";
import { DraftForm, useForm } from "../../../../ui/form/draft-form";
import { CheckField, ChoiceField, NumberField, Sheet } from "../../../../ui/parts";
import { wishesForm } from "../../model/plan";
import type { WishesDraft, WishesForm } from "../../model/plan/wishes";

const LEVELS = [
  { value: "low", label: "Low" },
  { value: "middle", label: "Middle" },
  { value: "high", label: "High" },
] as const;
const CLIPPINGS = [
  { value: "left", label: "Left on the lawn" },
  { value: "collected", label: "Collected" },
] as const;

export function WishesSheet({ open, onClose }: { open: boolean; onClose: () => void }) {
  const form = useForm(wishesForm, open, undefined);
  return (
    <Sheet open={open} onClose={onClose} title="Plan the year">
      {form?.form.value ? <Fields form={form} draft={form.form.value} onClose={onClose} /> : null}
    </Sheet>
  );
}

function Fields({ form, draft, onClose }: { form: WishesForm; draft: WishesDraft; onClose: () => void }) {
  const { change } = form;
  const errors = form.errors.value;
  return (
    <DraftForm
      of={form}
      base={undefined}
      save="Plan the year"
      tone="signal"
      saved="Planning the year."
      onSaved={onClose}
    >
      <ChoiceField
        label="How much to feed"
        value={draft.level}
        choices={LEVELS}
        onInput={(level) => change({ level })}
      />
      <ChoiceField
        label="Clippings"
        hint="Left ones save up to a quarter of the nitrogen."
        value={draft.clippings}
        choices={CLIPPINGS}
        onInput={(clippings) => change({ clippings })}
      />
      <NumberField
        label="Spend at most"
        hint="Leave blank for no limit."
        value={draft.budget}
        error={errors["budget"]}
        onInput={(budget) => change({ budget })}
      />
      <NumberField
        label="Evenings a week"
        hint="2 if you leave it blank."
        whole
        value={draft.evenings_week}
        error={errors["evenings_week"]}
        onInput={(evenings_week) => change({ evenings_week })}
      />
      <NumberField
        label="Minutes an evening"
        hint="120 if you leave it blank."
        whole
        value={draft.minutes_evening}
        error={errors["minutes_evening"]}
        onInput={(minutes_evening) => change({ minutes_evening })}
      />
      <CheckField
        label="Only gentle products"
        hint="Mostly slow-release. They rarely burn."
        checked={draft.only_gentle}
        onInput={(only_gentle) => change({ only_gentle })}
      />
      <fieldset class="field">
        <legend class="field__label">Months without jobs</legend>
        <div class="row">
          {MONTHS.map((label, at) => (
            <CheckField
              key={label}
              label={label}
              checked={draft.skip.includes(at + 1)}
              onInput={(on) =>
                change({ skip: on ? [...draft.skip, at + 1] : draft.skip.filter((one) => one !== at + 1) })
              }
            />
          ))}
        </div>
      </fieldset>
    </DraftForm>
  );
}
