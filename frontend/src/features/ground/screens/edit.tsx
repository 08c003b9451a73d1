import { useEffect, useMemo } from "preact/hooks";
import { useLocation } from "wouter-preact";
import type { Row } from "../../../platform/store/types";
import { rowNow } from "../../../records/live";
import { DraftForm } from "../../../ui/form/draft-form";
import { Page, TextField } from "../../../ui/parts";
import { ground } from "../model";
import type { ZoneEditor } from "../model/ground";
import type { ZoneForm } from "../model/zone-form";
import { GrassFields, SiteFields } from "./describe";
import { MeasureFields } from "./measure";
import { Result } from "./measure/result";
import { shownErrors } from "./measure/shown";

export function EditZone({ id }: { id: string | null }) {
  const editor = useMemo(() => ground.edit(id), [id]);
  const live = useMemo(() => (id ? rowNow("zone", id) : undefined), [id]);
  const row = live?.value;
  const known = id === null || row !== undefined;
  useEffect(() => {
    if (known) void editor.open(live?.peek());
  }, [editor, known, live]);
  const form = editor.form.value;
  const back = id ? `/ground/${id}` : "/ground";
  return (
    <Page title={id ? "Edit the zone" : "Measure a zone"} back={back} wide>
      {form ? <ZoneFormBody editor={editor} form={form} row={row} back={back} /> : null}
    </Page>
  );
}

interface BodyProps {
  editor: ZoneEditor;
  form: ZoneForm;
  row: Row | undefined;
  back: string;
}

function ZoneFormBody({ editor, form, row, back }: BodyProps) {
  const [, go] = useLocation();
  const errors = shownErrors(editor);
  // The one thing to do next is on the ground itself until it is measured.
  const { call, area_m2 } = editor.measured.value;
  const onGround = ["gps", "trace"].includes(form.measures.method) && !call && area_m2 === undefined;
  const here = row ? `/ground/${row.id}/edit` : "/ground/new";
  return (
    <DraftForm
      of={editor}
      base={row}
      class="stack stack--wide"
      save="Save the zone"
      tone={onGround ? "plain" : "signal"}
      saved={`${form.name.trim()} saved on this phone.`}
      onSaved={({ id }) => go(`/ground/${id}`, { replace: true })}
      leave={{ out: () => go(back), back: () => go(here) }}
    >
      <div class="columns">
        <div class="stack stack--wide">
          <TextField
            label="Zone name"
            hint="Your name for this piece of lawn."
            maxLength={60}
            value={form.name}
            onInput={(name) => editor.change({ name })}
            error={errors["name"]}
            required
          />
          <MeasureFields editor={editor} form={form} />
          <Result editor={editor} form={form} />
        </div>
        <div class="stack stack--wide">
          <GrassFields editor={editor} form={form} />
          <SiteFields editor={editor} form={form} />
        </div>
      </div>
    </DraftForm>
  );
}
