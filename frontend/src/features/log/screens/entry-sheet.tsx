/** One more entry of a kind whose form is made from the contract and its words. */
import { createEntryForm, photosKey } from "../../../forms/entry-form";
import { forming } from "../../../records/live";
import type { EntryKind } from "../../../records/log/registry";
import { SchemaSheet } from "../../../ui/form/schema-sheet";
import { PhotoDraftField, usePhotoDraft } from "../../photos";

export interface SheetState {
  open: boolean;
  onClose: () => void;
}

/** The sheet of a kind, once its words are there. */
export async function entrySheet({ kind, words }: EntryKind) {
  const { form } = await words();
  if (!form) throw new Error(`the words of ${kind} have no form`);
  return function EntrySheet(state: SheetState) {
    return (
      <SchemaSheet {...state} make={() => createEntryForm(forming, { kind, words: form })}>
        {form.photos ? <Photos kind={kind} /> : null}
      </SchemaSheet>
    );
  };
}

function Photos({ kind }: { kind: string }) {
  return <PhotoDraftField draft={usePhotoDraft(photosKey(kind))} />;
}
