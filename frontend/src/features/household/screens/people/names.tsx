import { useState } from "preact/hooks";
import { units } from "../../../../platform/session/session";
import { checkGroup } from "../../../../records/kinds";
import { Button, NotSaved, Sheet, showToast, TextField, useSaving } from "../../../../ui/parts";
import { household } from "../../model";

export type Naming = "" | "me" | "household";

export function NameSheet({ which, onClose }: { which: Naming; onClose: () => void }) {
  return (
    <Sheet
      open={which !== ""}
      onClose={onClose}
      title={which === "me" ? "Your name" : "Name of the household"}
    >
      {which === "me" ? (
        <NameForm
          t="member"
          start={household.me.value?.name ?? ""}
          save={household.setName}
          onClose={onClose}
        />
      ) : (
        <NameForm
          t="household"
          start={household.household.value.name}
          save={household.renameHousehold}
          onClose={onClose}
        />
      )}
    </Sheet>
  );
}

interface NameFormProps {
  t: "member" | "household";
  start: string;
  save: (name: string) => Promise<unknown>;
  onClose: () => void;
}

function NameForm({ t, start, save, onClose }: NameFormProps) {
  const [name, setName] = useState(start);
  const [problem, setProblem] = useState<string | undefined>(undefined);
  const saving = useSaving();
  async function send(event: Event): Promise<void> {
    event.preventDefault();
    const wrong = checkGroup(t, "name", { name: name.trim() }, units.value)["name"];
    setProblem(wrong);
    if (wrong) return;
    if (!(await saving.run(() => save(name)))) return;
    onClose();
    showToast({ text: "Saved." });
  }
  return (
    <form class="stack" onSubmit={send} noValidate>
      <TextField label="Name" maxLength={60} value={name} onInput={setName} error={problem} />
      <NotSaved of={saving} />
      <Button type="submit" tone="signal" wide busy={saving.busy.value}>
        Save the name
      </Button>
    </form>
  );
}
