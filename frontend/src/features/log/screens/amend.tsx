import { useEffect, useState } from "preact/hooks";
import { dateTime } from "../../../format";
import { localOfMoment, momentMoved, NO_WHEN, zoneElsewhere } from "../../../format/moment";
import { units } from "../../../platform/session/session";
import type { Entry } from "../../../records/entries";
import { checkGroup } from "../../../records/kinds";
import { kindOf } from "../../../records/log/registry";
import { Button, NotSaved, Sheet, showToast, TextField, useSaving } from "../../../ui/parts";
import { log } from "../model";

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
    <Sheet open={open} onClose={onClose} title="Note for this entry">
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
        onSubmit={(event) =>
          save(event, wrong, () => log.setWhen(entry, moment ?? entry.at), "Date changed.")
        }
      >
        <TextField
          label="When"
          type="datetime-local"
          hint={[
            elsewhere,
            `First logged for ${dateTime(entry.firstAt, units.value)}. That stays in the history.`,
          ]
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
  const ofParts = kindOf(entry.kind)?.parts?.whenCrossedOut;
  const wrong = checkGroup("entry", "void", { void: true, why: text }, units.value)["why"];
  return (
    <Sheet open={open} onClose={onClose} title="Cross out this entry?">
      <form
        class="stack"
        noValidate
        onSubmit={(event) =>
          save(event, wrong, () => log.strike(entry, text.trim()), "Crossed out. You can restore it.")
        }
      >
        <p>It will not count for due dates, stock or nitrogen. You can still read it and restore it.</p>
        {ofParts ? <p>{ofParts}</p> : null}
        <TextField label="Reason (optional)" maxLength={400} value={text} onInput={setText} error={problem} />
        <NotSaved of={saving} />
        <Button type="submit" tone="danger" wide busy={saving.busy.value}>
          Cross out
        </Button>
      </form>
    </Sheet>
  );
}
