import { useState } from "preact/hooks";
import { mass, unitsFor } from "../../format";
import { walk } from "../../models";
import { units } from "../../models/session";
import type { PassOnFoot, PourForm } from "../../models/walk-types";
import { Button, ChoiceField, Sheet, UnitField } from "../../parts";

const FROM = [
  { value: "bag", label: "From the bag beside" },
  { value: "more", label: "More than was loaded" },
] as const;

/** Topping up on the way: mostly the rest of the load; seldom more, and never over the aim. */
export function Pour({ pass }: { pass: PassOnFoot }) {
  const [open, setOpen] = useState(false);
  const form = walk.draft.value?.pour;
  if (!form) return null;
  async function pour(): Promise<void> {
    if (await walk.pour()) setOpen(false);
  }
  return (
    <>
      <Button size="walk" wide onClick={() => setOpen(true)}>
        Poured in more
      </Button>
      {pass.added_kg > 0 ? (
        <p class="small">{mass(pass.added_kg, units.value).text} more than was loaded has gone in.</p>
      ) : null}
      <Sheet
        open={open}
        onClose={() => setOpen(false)}
        title="Poured in"
        actions={
          <Button tone="signal" size="walk" wide busy={walk.busy.value} onClick={() => void pour()}>
            Note it
          </Button>
        }
      >
        <PourFields form={form} />
      </Sheet>
    </>
  );
}

function PourFields({ form }: { form: PourForm }) {
  const trouble = walk.pourTrouble.value;
  const set = (part: Partial<PourForm>) => void walk.change({ pour: { ...form, ...part } });
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
          hint="Part of this load, not yet poured in. Leave it blank if none."
          value={form.in_bag}
          units={unitsFor("mass", units.value)}
          onInput={(in_bag) => set({ in_bag })}
          error={trouble?.field === "in_bag" ? trouble.message : undefined}
        />
      ) : (
        <UnitField
          label="Poured in"
          hint="It counts as loaded. Never more than the aim."
          value={form.added}
          units={unitsFor("mass", units.value)}
          onInput={(added) => set({ added })}
          error={trouble?.field === "added" ? trouble.message : undefined}
        />
      )}
    </div>
  );
}
