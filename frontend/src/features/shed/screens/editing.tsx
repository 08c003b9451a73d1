/** What both forms of the shed share: opening a draft, saving, taking out with a way back. */
import type { ComponentChildren } from "preact";
import { useEffect, useMemo } from "preact/hooks";
import { useLocation } from "wouter-preact";
import type { Row } from "../../../platform/store/types";
import { Button, Empty, Notice, NotSaved, Page, showToast, useSaving } from "../../../ui/parts";
import { shed } from "../model";
import type { ProductEditor, SpreaderEditor } from "../model/shed";

type Sort = "product" | "spreader";
type Editor = ProductEditor | SpreaderEditor;

/** An editor over the record as it stands; its draft is opened once the record is read. */
export function useEditor<E extends Editor>(sort: Sort, id: string | null, make: (id: string | null) => E) {
  const editor = useMemo(() => make(id), [id, make]);
  const live = useMemo(() => (id ? shed.row(sort, id) : undefined), [sort, id]);
  const row = live?.value;
  const ready = id === null || row !== undefined;
  useEffect(() => {
    if (ready) void editor.open(row);
  }, [editor, ready, row]);
  return { editor, row };
}

interface FormPageProps {
  sort: Sort;
  title: string;
  editor: Editor;
  row: Row | undefined;
  id: string | null;
  children: ComponentChildren;
}

const GONE = {
  product: "This product is not in the shed on this phone.",
  spreader: "This spreader is not in the shed on this phone.",
};

/** The page round a form. Nothing is drawn before the draft is read, so no keystroke can land in the wrong form. */
export function FormPage({ sort, title, editor, row, id, children }: FormPageProps) {
  const [, go] = useLocation();
  const saving = useSaving();
  const back = { back: "/shed", backLabel: "Back to the shed" };
  const gone = id !== null && shed.loaded.value && (!row || row.groups["deleted"]?.value?.deleted === true);
  if (gone)
    return (
      <Page title={title} {...back}>
        <Empty title="Not found" action={<Button href="/shed">Back to the shed</Button>}>
          <p>{GONE[sort]} It may have been removed.</p>
        </Empty>
      </Page>
    );
  if (!editor.form.value)
    return (
      <Page title={title} {...back}>
        <p class="quiet">Opening…</p>
      </Page>
    );

  async function save(event: Event): Promise<void> {
    event.preventDefault();
    const made = await saving.run(async () => {
      if (await editor.save(row)) return true;
      focusFirstError();
      return false;
    });
    if (!made) return;
    showToast({ text: "Saved on this phone." });
    go("/shed");
  }

  return (
    <Page title={title} {...back}>
      <form class="shed__form" noValidate onSubmit={save}>
        {editor.resumed.value ? <Resumed discard={() => editor.discard(row)} /> : null}
        {children}
        <NotSaved of={saving} />
        <SaveBar editor={editor} />
      </form>
      {row ? <TakeOut sort={sort} row={row} /> : null}
    </Page>
  );
}

function SaveBar({ editor }: { editor: Editor }) {
  const wrong = editor.tried.value ? Object.keys(editor.errors.value).length : 0;
  return (
    <div class="shed__save">
      <p class="shed__wrong" role="status">
        {wrong
          ? `${wrong === 1 ? "One field needs" : `${wrong} fields need`} fixing. Nothing you entered is lost.`
          : ""}
      </p>
      <Button tone="signal" type="submit" wide busy={editor.saving.value}>
        Save
      </Button>
    </div>
  );
}

function Resumed({ discard }: { discard: () => void }) {
  return (
    <Notice title="Unsaved changes">
      <Button tone="quiet" onClick={discard}>
        Discard changes
      </Button>
    </Notice>
  );
}

/** Moves the focus to the first field that is marked wrong, once it is. */
function focusFirstError(): void {
  requestAnimationFrame(() => {
    const field = document.querySelector<HTMLElement>("form [aria-invalid=true]");
    const input = field?.matches("fieldset") ? field.querySelector<HTMLElement>("input") : field;
    input?.focus();
  });
}

function TakeOut({ sort, row }: { sort: Sort; row: Row }) {
  const [, go] = useLocation();
  const saving = useSaving();
  async function takeOut(): Promise<void> {
    let op = "";
    const made = await saving.run(async () => {
      op = (await shed.takeOut(sort, row.id)).op;
    });
    if (!made) return;
    go("/shed");
    const name = row.groups["name"]?.value?.name ?? "It";
    showToast({
      text: `${name} removed from the shed.`,
      undo: { act: () => shed.putBack(sort, row.id, op) },
    });
  }
  return (
    <section class="section" aria-labelledby="take-out">
      <h2 id="take-out">Remove</h2>
      <p class="quiet">Its log entries stay.</p>
      <NotSaved of={saving} />
      <div>
        <Button tone="danger" busy={saving.busy.value} onClick={takeOut}>
          Remove from the shed
        </Button>
      </div>
    </section>
  );
}
