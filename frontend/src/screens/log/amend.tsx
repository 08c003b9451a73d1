import { useEffect, useState } from "preact/hooks";
import { dateTime } from "../../format";
import { log } from "../../models";
import type { Entry } from "../../models/entries";
import { checkGroup } from "../../models/kinds";
import { localOfMoment, momentMoved, NO_WHEN, zoneElsewhere } from "../../models/moment";
import { units } from "../../models/session";
import { Button, NotSaved, Sheet, showToast, TextField, useSaving } from "../../parts";

interface AmendProps {
  entry: Entry;
  open: boolean;
  onClose: () => void;
}

/** One text being amended: starts from what stands, checks, saves, says so. */
function useAmend(open: boolean, start: string, onClose: () => void) {
  const [text, setText] = useState(start);
  const [problem, setProblem] = useState<string | undefined>(undefined);
  const saving = useSaving();
  // biome-ignore lint/correctness/useExhaustiveDependencies: what stood when the sheet opened is the start
  useEffect(() => {
    if (!open) return;
    setText(start);
    setProblem(undefined);
  }, [open]);
  async function save(
    event: Event,
    wrong: string | undefined,
    write: () => Promise<unknown>,
    done: string,
  ): Promise<void> {
    event.preventDefault();
    setProblem(wrong);
    if (wrong) return;
    // Saved unchanged: there is nothing to add to the history.
    if (text === start && start !== "") return onClose();
    if (!(await saving.run(write))) return;
    onClose();
    showToast({ text: done });
  }
  return { text, setText, problem, saving, save };
}

export function NoteSheet({ entry, open, onClose }: AmendProps) {
  const { text, setText, problem, saving, save } = useAmend(open, entry.note, onClose);
  const wrong = checkGroup("entry", "note", { note: text }, units.value)["note"];
  return (
    <Sheet open={open} onClose={onClose} title="What to remember of this entry">
      <form
        class="stack"
        noValidate
        onSubmit={(event) => save(event, wrong, () => log.setNote(entry, text.trim()), "Note saved.")}
      >
        <TextField label="Note" multiline maxLength={4000} value={text} onInput={setText} error={problem} />
        <NotSaved of={saving} />
        <Button type="submit" tone="signal" wide busy={saving.busy.value}>
          Save the note
        </Button>
      </form>
    </Sheet>
  );
}

export function MoveSheet({ entry, open, onClose }: AmendProps) {
  const { text, setText, problem, saving, save } = useAmend(open, localOfMoment(entry.at), onClose);
  const moment = momentMoved(text, entry.at);
  const wrong = moment
    ? checkGroup("entry", "when", { occurred_at: moment }, units.value)["occurred_at"]
    : NO_WHEN;
  const elsewhere = zoneElsewhere(entry.at);
  return (
    <Sheet open={open} onClose={onClose} title="When it was done">
      <form
        class="stack"
        noValidate
        onSubmit={(event) => save(event, wrong, () => log.setWhen(entry, moment ?? entry.at), "Moved.")}
      >
        <TextField
          label="When"
          type="datetime-local"
          hint={[elsewhere, `First written for ${dateTime(entry.firstAt)}; that stays in the history.`]
            .filter(Boolean)
            .join(" ")}
          value={text}
          onInput={setText}
          error={problem}
        />
        <NotSaved of={saving} />
        <Button type="submit" tone="signal" wide busy={saving.busy.value}>
          Save
        </Button>
      </form>
    </Sheet>
  );
}

export function StrikeSheet({ entry, open, onClose }: AmendProps) {
  const { text, setText, problem, saving, save } = useAmend(open, "", onClose);
  const wrong = checkGroup("entry", "void", { void: true, why: text }, units.value)["why"];
  return (
    <Sheet open={open} onClose={onClose} title="Strike this entry out?">
      <form
        class="stack"
        noValidate
        onSubmit={(event) =>
          save(event, wrong, () => log.strike(entry, text.trim()), "Struck out. It can be put back.")
        }
      >
        <p>
          It will no longer count for what is due, for stock or for nitrogen, on every phone of the household.
          It stays readable and can be put back.
        </p>
        {entry.kind === "walk" ? (
          <p>Its passes stay, for what they taught about the dial. Each can be struck out by itself.</p>
        ) : null}
        <TextField label="Why (if you like)" maxLength={400} value={text} onInput={setText} error={problem} />
        <NotSaved of={saving} />
        <Button type="submit" tone="danger" wide busy={saving.busy.value}>
          Strike out
        </Button>
      </form>
    </Sheet>
  );
}
