import type { Entry } from "../../../records/entries";
import { forming } from "../../../records/live";
import { SchemaSheet } from "../../../ui/form/schema-sheet";
import { log } from "../model";
import { type Amending, createAmendForm } from "../model/forms";

interface AmendProps {
  entry: Entry;
  open: boolean;
  onClose: () => void;
}

/** A sheet over an entry that stands: what is said there is laid over it, and nothing of it is wiped. */
function amending(what: Amending) {
  return function AmendSheet({ entry, open, onClose }: AmendProps) {
    const tone = what === "void" ? "danger" : "signal";
    const make = () => createAmendForm(forming, log, what, entry);
    return <SchemaSheet open={open} onClose={onClose} make={make} tone={tone} />;
  };
}

export const NoteSheet = amending("note");
export const MoveSheet = amending("when");
export const StrikeSheet = amending("void");
