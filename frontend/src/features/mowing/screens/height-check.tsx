/** One notch measured once more. */
import { unitsFor } from "../../../format";
import { units } from "../../../platform/session/session";
import { DraftForm, useForm } from "../../../ui/form/draft-form";
import { ChoiceField, Sheet, UnitField } from "../../../ui/parts";
import { mowers } from "../model";
import type { Mower } from "../model/mowers";
import { BLADE_SAFETY, HOW } from "./text";

interface HeightCheckProps {
  mower: Mower;
  open: boolean;
  onClose: () => void;
}

export function HeightCheck({ mower, open, onClose }: HeightCheckProps) {
  const made = useForm(() => mowers.heightCheck(mower), open, undefined);
  return (
    <Sheet open={open} onClose={onClose} title="Height check">
      {made ? <CheckFields form={made} mower={mower} onClose={onClose} /> : null}
    </Sheet>
  );
}

type Check = ReturnType<typeof mowers.heightCheck>;

function CheckFields({ form, mower, onClose }: { form: Check; mower: Mower; onClose: () => void }) {
  const now = form.form.value;
  return (
    <DraftForm of={form} base={undefined} save="Save the height" saved="Height saved." onSaved={onClose}>
      <p>{BLADE_SAFETY}</p>
      <ChoiceField
        label="Notch"
        look="list"
        value={now?.label ?? ""}
        onInput={(label) => form.change({ label })}
        choices={mower.notches.map(({ label }) => ({ value: label, label }))}
      />
      {now ? (
        <UnitField
          label="Measured height"
          hint={HOW}
          units={unitsFor("height", units.value)}
          value={now.height}
          onInput={(height) => form.change({ height })}
          error={form.errors.value["height"]}
          required
        />
      ) : null}
    </DraftForm>
  );
}
