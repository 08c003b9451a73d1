import type { ComponentChildren } from "preact";
import { Button, Sheet } from "../../../ui/parts";

interface AskProps {
  /** What is asked about; nothing is asked while undefined. */
  title: string | undefined;
  /** What the button that does it says. */
  yes: string;
  no?: string;
  busy?: boolean;
  onYes: () => void;
  onNo: () => void;
  children: ComponentChildren;
}

/** A question before something that cannot simply be undone; staying as it is comes first. */
export function Ask({ title, yes, no = "Leave it", busy, onYes, onNo, children }: AskProps) {
  return (
    <Sheet
      open={title !== undefined}
      onClose={onNo}
      title={title ?? ""}
      actions={
        <>
          <Button onClick={onNo}>{no}</Button>
          <Button tone="danger" onClick={onYes} busy={busy}>
            {yes}
          </Button>
        </>
      }
    >
      {children}
    </Sheet>
  );
}
