import { useState } from "preact/hooks";
import { mass, unitsFor } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { Button, ChoiceField, Sheet, UnitField } from "../../../../ui/parts";
import { spreading } from "../../model";
import type { PassOnFoot, PourForm } from "../../model/types";

const FROM = [
  { value: "bag", label: "From this load" },
  { value: "more", label: "Extra product" },
] as const;

/** Topping up on the way: mostly the rest of the load; seldom more, and never over the aim. */
export function Pour({ pass }: { pass: PassOnFoot }) {
  const [open, setOpen] = useState(false);
  const form = spreading.draft.value?.pour;
  if (!form) return null;
  async function pour(): Promise<void> {
    if (await spreading.pour()) setOpen(false);
  }
  return (
    <>
      <Button size="yard" wide onClick={() => setOpen(true)}>
        Add product
      </Button>
      {pass.added_kg > 0 ? (
        <p class="small">{mass(pass.added_kg, units.value).text} of extra product added.</p>
      ) : null}
      <Sheet
        open={open}
        onClose={() => setOpen(false)}
        title="Add product"
        actions={
          <Button tone="signal" size="yard" wide busy={spreading.busy.value} onClick={() => void pour()}>
            Save
          </Button>
        }
      >
        <PourFields form={form} />
      </Sheet>
    </>
  );
}

function PourFields({ form }: { form: PourForm }) {
  const trouble = spreading.pourTrouble.value;
  const set = (part: Partial<PourForm>) => void spreading.change({ pour: { ...form, ...part } });
  return (
    <div class="stack">
      <ChoiceField
        label="Where from"
        look="row"
        value={form.from}
        choices={FROM}
        onInput={(from) => set({ from })}
      />
      {form.from === "bag" ? (
        <UnitField
          label="Still in the bag"
          hint="Part of this load, not poured in yet. Leave blank if none."
          value={form.in_bag}
          units={unitsFor("mass", units.value)}
          onInput={(in_bag) => set({ in_bag })}
          error={trouble?.field === "in_bag" ? trouble.message : undefined}
        />
      ) : (
        <UnitField
          label="Amount added"
          hint="Adds to the load. Never go over the target."
          value={form.added}
          units={unitsFor("mass", units.value)}
          onInput={(added) => set({ added })}
          error={trouble?.field === "added" ? trouble.message : undefined}
        />
      )}
    </div>
  );
}
