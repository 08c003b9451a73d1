/** What both forms of the shed share: opening a draft, saving, taking out with a way back. */
import type { ComponentChildren } from "preact";
import { useEffect, useMemo } from "preact/hooks";
import { useLocation } from "wouter-preact";
import type { Row } from "../../../platform/store/types";
import { DraftForm } from "../../../ui/form/draft-form";
import { Button, Empty, Page } from "../../../ui/parts";
import { TakeOut } from "../../../ui/parts/take-out";
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
  /** Above the form, with a save of its own. */
  above?: ComponentChildren;
  children: ComponentChildren;
}

const GONE = {
  product: "This product is not in the shed on this phone.",
  spreader: "This spreader is not in the shed on this phone.",
};

/** The page round a form. Nothing is drawn before the draft is read, so no keystroke can land in the wrong form. */
export function FormPage({ sort, title, editor, row, id, above, children }: FormPageProps) {
  const [, go] = useLocation();
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
  const form = `/shed/${sort}/${id ?? "new"}`;
  return (
    <Page title={title} {...back}>
      {above}
      <DraftForm
        of={editor}
        base={row}
        class="shed__form"
        save="Save"
        saved="Saved on this phone."
        onSaved={() => go("/shed")}
        leave={{ out: () => go("/shed"), back: () => go(form) }}
      >
        {children}
      </DraftForm>
      {row ? (
        <TakeOut name={row.groups["name"]?.value?.name ?? "It"} takeOut={() => shed.takeOut(sort, row.id)} />
      ) : null}
    </Page>
  );
}
