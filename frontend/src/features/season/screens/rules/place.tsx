/** Where the yard is, as rules go by it. */
import { useState } from "preact/hooks";
import { createForm, type Saved } from "../../../../forms/form";
import { PLACES, type RulesValue } from "../../../../records/limits/rules";
import { forming } from "../../../../records/live";
import { DraftForm, useForm } from "../../../../ui/form/draft-form";
import { Button, ChoiceField, Sheet } from "../../../../ui/parts";
import { rules } from "../../model";

const CHOICES = [
  { value: "", label: "Not said" },
  ...PLACES.map(({ key, name, country }) => ({ value: key, label: sayPlace({ name, country }) })),
];

function sayPlace({ name, country }: { name: string; country: string }): string {
  const whole = name[0]?.toUpperCase() + name.slice(1);
  return country && country !== name ? `${country}: ${whole}` : whole;
}

const nameOf = (key: string | undefined): string =>
  CHOICES.find(({ value }) => value === (key ?? ""))?.label ?? key ?? "";

/** The rules that are only the strictest of all, since nobody said more. */
const assumedIn = (value: RulesValue): number => value.rules.filter(({ assumed }) => assumed).length;

export function PlacePart({ value }: { value: RulesValue | undefined }) {
  const [open, setOpen] = useState(false);
  const place = rules.place.value;
  const assumed = value ? assumedIn(value) : 0;
  return (
    <section class="section" aria-labelledby="rules-place">
      <h2 id="rules-place">Place</h2>
      <p>
        <strong>{nameOf(place)}</strong>
      </p>
      {value ? <p>{value.says}</p> : null}
      {assumed ? <p class="quiet">{sayAssumed(assumed)}</p> : null}
      <div>
        <Button tone={place ? "plain" : "signal"} onClick={() => setOpen(true)}>
          {place ? "Edit the place" : "Choose your place"}
        </Button>
      </div>
      <PlaceSheet open={open} onClose={() => setOpen(false)} />
    </section>
  );
}

const sayAssumed = (assumed: number): string =>
  assumed === 1
    ? "1 rule below is the strictest of all places."
    : `${assumed} rules below are the strictest of all places.`;

const placeForm = () =>
  createForm<{ place: string }, string, Saved, undefined>(forming, {
    key: "rules-place-form",
    fresh: () => ({ place: rules.place.peek() ?? "" }),
    read: ({ place }) => ({ value: place, errors: {} }),
    write: async (place) => (place === (rules.place.peek() ?? "") ? {} : rules.savePlace(place)),
  });

function PlaceSheet({ open, onClose }: { open: boolean; onClose: () => void }) {
  const form = useForm(placeForm, open, undefined);
  const now = form?.form.value;
  return (
    <Sheet open={open} onClose={onClose} title="Place">
      {form ? (
        <DraftForm of={form} base={undefined} save="Save the place" saved="Place saved." onSaved={onClose}>
          {now ? (
            <ChoiceField
              label="Country or state"
              hint="Not in the list? Choose “Somewhere else”."
              look="list"
              value={now.place}
              choices={CHOICES}
              onInput={(place) => form.change({ place })}
            />
          ) : null}
        </DraftForm>
      ) : null}
    </Sheet>
  );
}
