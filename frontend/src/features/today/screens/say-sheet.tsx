/** Taking a job: what, when, where, said to the whole household. */
import { today as day } from "../../../platform/session/clock";
import { forming } from "../../../records/live";
import { SchemaSheet } from "../../../ui/form/schema-sheet";
import { claims, today } from "../model";
import { claimForm } from "../model/forms";

export function SaySheet({ open, onClose }: { open: boolean; onClose: () => void }) {
  function close(): void {
    today.still.hold();
    onClose();
  }
  return <SchemaSheet open={open} onClose={close} make={() => claimForm(forming, claims, day)} />;
}
