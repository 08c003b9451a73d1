import { useState } from "preact/hooks";
import { units } from "../../../platform/session/session";
import { checkGroup } from "../../../records/kinds";
import { Button, NotSaved, Sheet, showToast, TextField, useSaving } from "../../../ui/parts";
import type { Clash } from "../model/clashes";
import { clashes } from "../model/clashing";

interface SettleProps {
  clash: Clash;
  title: string;
  open: boolean;
  onClose: () => void;
}

async function settle(clash: Clash, note: string): Promise<void> {
  const settled = await clashes.settle(clash, note);
  const act = async () => {
    await clashes.reopen(settled);
    showToast({ text: "Warning restored." });
  };
  showToast({ text: "Resolved on every phone.", undo: { act } });
}

/** Both entries stay as they are; the household has seen it. */
export function SettleSheet({ clash, title, open, onClose }: SettleProps) {
  const [note, setNote] = useState("");
  const saving = useSaving();
  const [problem, setProblem] = useState<string | undefined>(undefined);
  async function save(event: Event): Promise<void> {
    event.preventDefault();
    const wrong = checkGroup("settlement", "settled", { clash: clash.key, note }, units.value)["note"];
    setProblem(wrong);
    if (wrong) return;
    if (await saving.run(() => settle(clash, note))) onClose();
  }
  return (
    <Sheet open={open} onClose={onClose} title={title}>
      <form class="stack" onSubmit={save} noValidate>
        <p>Both entries stay and count. The warning goes away.</p>
        <TextField label="Note (optional)" maxLength={400} value={note} onInput={setNote} error={problem} />
        <NotSaved of={saving} />
        <Button type="submit" tone="signal" wide busy={saving.busy.value}>
          Resolve{" "}
        </Button>
      </form>
    </Sheet>
  );
}
