/** The form of a mower: its name, what each notch was measured to cut at, its blade. */
import { useEffect, useMemo } from "preact/hooks";
import { useLocation } from "wouter-preact";
import { unitsFor } from "../../../format";
import { units } from "../../../platform/session/session";
import { system } from "../../../records/live";
import { DraftForm } from "../../../ui/form/draft-form";
import { Button, NumberField, Page, TextField, UnitField } from "../../../ui/parts";
import { mowers } from "../model";
import { blankNotch, MOST_NOTCHES, type MowerForm, type NotchForm } from "../model/mower-form";
import type { MowerEditor } from "../model/mowers";
import { NoMower } from "./no-mower";
import { BLADE_SAFETY, HOW } from "./text";

export function MowerEdit({ id }: { id: string | null }) {
  const [, go] = useLocation();
  const editor = useMemo(() => mowers.editor(id), [id]);
  const row = useMemo(() => (id ? mowers.row(id) : undefined), [id])?.value;
  const ready = id === null || row !== undefined;
  useEffect(() => {
    if (ready) void editor.open(row);
  }, [editor, ready, row]);
  const home = id ? `/shed/mower/${id}` : "/shed";
  const title = id ? (row?.groups["name"]?.value?.name ?? "Mower") : "New mower";
  const back = { back: home, backLabel: id ? "Back to the mower" : "Back to the shed" };
  if (id && mowers.loaded.value && !row) return <NoMower {...back} />;
  return (
    <Page title={title} {...back}>
      <DraftForm
        of={editor}
        base={row}
        save="Save"
        saved="Saved on this phone."
        onSaved={(saved) => go(`/shed/mower/${saved.id}`)}
        leave={{ out: () => go(home), back: () => go(id ? `${home}/edit` : "/shed/mower/new") }}
      >
        {editor.form.value ? <Fields editor={editor} form={editor.form.value} /> : null}
      </DraftForm>
    </Page>
  );
}

interface FieldsProps {
  editor: MowerEditor;
  form: MowerForm;
}

function Fields({ editor, form }: FieldsProps) {
  const errors = editor.errors.value;
  const { change } = editor;
  return (
    <>
      <TextField
        label="Name"
        value={form.name}
        onInput={(name) => change({ name })}
        error={errors["name"]}
        required
      />
      <NotchFields editor={editor} form={form} />
      <Ends editor={editor} form={form} />
      <section class="section" aria-labelledby="blade">
        <h2 id="blade">Blade</h2>
        <TextField
          label="Last sharpened"
          type="date"
          value={form.sharpened}
          onInput={(sharpened) => change({ sharpened })}
          error={errors["sharpened_on"]}
        />
        <NumberField
          label="Hours between sharpenings"
          hint="From the manual. Leave blank for about 10 hours."
          unit="hours"
          value={form.hours}
          onInput={(hours) => change({ hours })}
          error={errors["hours_between"]}
        />
      </section>
    </>
  );
}

function NotchFields({ editor, form }: FieldsProps) {
  const { notches } = form;
  const set = (at: number, part: Partial<NotchForm>) =>
    editor.change({ notches: notches.map((one, k) => (k === at ? { ...one, ...part } : one)) });
  return (
    <section class="section" aria-labelledby="notches">
      <h2 id="notches">Notches</h2>
      <p>{BLADE_SAFETY}</p>
      <p>{HOW} Leave a notch blank if you don’t use it.</p>
      {notches.map((notch, at) => (
        // A notch has no name of its own until it is typed: its place is what it goes by.
        <div class="notch" key={at}>
          <TextField
            label={`Label of notch ${at + 1}`}
            value={notch.label}
            onInput={(label) => set(at, { label })}
            error={editor.errors.value[`label ${at}`]}
            maxLength={20}
          />
          <UnitField
            label={`Height of notch ${at + 1}`}
            units={unitsFor("height", units.value)}
            value={notch.height}
            onInput={(height) => set(at, { height })}
            error={editor.errors.value[`height ${at}`]}
          />
        </div>
      ))}
      {notches.length < MOST_NOTCHES ? (
        <div>
          <Button
            onClick={() =>
              editor.change({ notches: [...notches, blankNotch(String(notches.length + 1), system())] })
            }
          >
            Add a notch
          </Button>
        </div>
      ) : null}
    </section>
  );
}

/** For a lever without notches. */
function Ends({ editor, form }: FieldsProps) {
  const errors = editor.errors.value;
  return (
    <section class="section" aria-labelledby="ends">
      <h2 id="ends">No notches?</h2>
      <UnitField
        label="Lowest cutting height"
        units={unitsFor("height", units.value)}
        value={form.lowest}
        onInput={(lowest) => editor.change({ lowest })}
        error={errors["lowest_mm"]}
      />
      <UnitField
        label="Highest cutting height"
        units={unitsFor("height", units.value)}
        value={form.highest}
        onInput={(highest) => editor.change({ highest })}
        error={errors["highest_mm"]}
      />
    </section>
  );
}
