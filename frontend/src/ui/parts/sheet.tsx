import { X } from "lucide-preact";
import type { ComponentChildren } from "preact";
import { useEffect, useId, useRef } from "preact/hooks";
import { Button } from "./button";
import { SheetToasts } from "./toast";
import { enterSheet } from "./way-back";

export interface SheetProps {
  open: boolean;
  /** Called for the close button, the Escape key, and back, the browser's and the phone's. */
  onClose: () => void;
  title: string;
  children: ComponentChildren;
  actions?: ComponentChildren;
}

/** A native modal dialog: it keeps the focus inside and gives it back to what opened it. */
export function Sheet({ open, onClose, title, children, actions }: SheetProps) {
  const ref = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    const dialog = ref.current;
    if (!dialog || dialog.open === open) return;
    if (open) dialog.showModal();
    else dialog.close();
  }, [open]);
  useEffect(() => (open ? enterSheet(() => ref.current?.close()) : undefined), [open]);
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: Escape closes a native dialog; the click is the tap on the veil
    <dialog
      ref={ref}
      class="sheet"
      aria-labelledby={id}
      onClose={onClose}
      onClick={(event) => {
        // A tap on the veil arrives on the dialog itself; one inside arrives on a child.
        if (event.target === event.currentTarget) ref.current?.close();
      }}
    >
      {open ? (
        <div class="sheet__in">
          <div class="sheet__head">
            <h2 id={id}>{title}</h2>
            <Button tone="quiet" label="Close" onClick={() => ref.current?.close()}>
              <X aria-hidden="true" />
            </Button>
          </div>
          {children}
          {actions ? <div class="sheet__actions">{actions}</div> : null}
        </div>
      ) : null}
      {open ? <SheetToasts /> : null}
    </dialog>
  );
}
