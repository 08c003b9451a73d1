import { useState } from "preact/hooks";
import { household } from "../../models";
import { checkGroup } from "../../models/kinds";
import { units } from "../../models/session";
import { Button, Sheet, showToast, TextField } from "../../parts";

export function Members() {
  const [naming, setNaming] = useState<"" | "me" | "household">("");
  return (
    <section class="section" aria-labelledby="members">
      <h2 id="members">Members</h2>
      <ul class="lines">
        {household.members.value.map((member) => (
          <li key={member.id} class="line">
            <span class="line__main">
              <span class="line__title">
                {member.name}
                {member.me ? " (you)" : ""}
              </span>
              <span class="line__facts">
                {member.role === "keeper" ? "Keeper: invites and names the household" : "Member"}
                {member.active ? "" : ", no longer in the household"}
              </span>
            </span>
            {member.me ? <Button onClick={() => setNaming("me")}>Rename</Button> : null}
          </li>
        ))}
      </ul>
      {household.keeper.value ? (
        <div>
          <Button tone="quiet" onClick={() => setNaming("household")}>
            Rename the household
          </Button>
        </div>
      ) : null}
      <NameSheet which={naming} onClose={() => setNaming("")} />
    </section>
  );
}

function NameSheet({ which, onClose }: { which: "" | "me" | "household"; onClose: () => void }) {
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
  async function send(event: Event): Promise<void> {
    event.preventDefault();
    const wrong = checkGroup(t, "name", { name: name.trim() }, units.value)["name"];
    setProblem(wrong);
    if (wrong) return;
    try {
      await save(name);
      onClose();
      showToast({ text: "Saved." });
    } catch {
      setProblem(
        "This could not be stored on this phone. Nothing was changed; free some room and try again.",
      );
    }
  }
  return (
    <form class="stack" onSubmit={send} noValidate>
      <TextField label="Name" maxLength={60} value={name} onInput={setName} error={problem} />
      <Button type="submit" tone="signal" wide>
        Save the name
      </Button>
    </form>
  );
}
