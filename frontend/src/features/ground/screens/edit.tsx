import { useEffect, useMemo, useRef } from "preact/hooks";
import { useLocation } from "wouter-preact";
import type { Row } from "../../../platform/store/types";
import { rowNow } from "../../../records/live";
import { Button, Notice, offerUndo, orSay, Page, showToast, TextField } from "../../../ui/parts";
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
  const element = useRef<HTMLFormElement>(null);
  const [, go] = useLocation();
  const errors = shownErrors(editor);
  // The one thing to do next is on the ground itself until it is measured.
  const { call, area_m2 } = editor.measured.value;
  const onGround = ["gps", "trace"].includes(form.measures.method) && !call && area_m2 === undefined;
  async function save(event: Event): Promise<void> {
    event.preventDefault();
    const made = await orSay(() => editor.save(row));
    if (made?.value) {
      go(`/ground/${made.value}`, { replace: true });
      showToast({ text: `${form.name.trim()} saved on this phone.` });
    } else if (made)
      setTimeout(() => element.current?.querySelector<HTMLElement>("[aria-invalid='true']")?.focus(), 0);
  }
  async function discard(): Promise<void> {
    const done = await orSay(() => editor.discard(row));
    if (!done) return;
    const kept = done.value;
    go(back);
    if (!kept) return;
    const bringBack = async () => {
      await ground.restore(row?.id ?? null, kept);
      go(row ? `/ground/${row.id}/edit` : "/ground/new");
    };
    offerUndo("Changes discarded.", bringBack);
  }
  return (
    <form ref={element} class="stack stack--wide" onSubmit={save} noValidate>
      {editor.resumed.value ? (
        <Notice title="Unsaved changes">
          <p>Your unsaved changes are still here. Save to keep them.</p>
        </Notice>
      ) : null}
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
      <div class="row">
        <div class="grow">
          <Button type="submit" tone={onGround ? "plain" : "signal"} wide busy={editor.saving.value}>
            Save the zone
          </Button>
        </div>
        <Button tone="quiet" onClick={discard}>
          Discard changes
        </Button>
      </div>
    </form>
  );
}
