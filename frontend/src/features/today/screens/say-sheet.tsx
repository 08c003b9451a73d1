/** Taking a job: what, when, where, said to the whole household. */
import { useState } from "preact/hooks";
import { today as day } from "../../../platform/session/clock";
import { units } from "../../../platform/session/session";
import { checkGroup } from "../../../records/kinds";
import type { Job } from "../../../records/log/registry";
import { Button, CheckField, ChoiceField, Sheet, TextField } from "../../../ui/parts";
import { today } from "../model";
import { JOBS, takeOn } from "./claim-it";

interface Form {
  job: Job;
  day: string;
  zones: readonly string[];
  note: string;
}

const blank = (): Form => ({ job: "mow", day: day(), zones: [], note: "" });

export function SaySheet({ open, onClose }: { open: boolean; onClose: () => void }) {
  return (
    <Sheet open={open} onClose={onClose} title="Take a job">
      <SayForm onClose={onClose} />
    </Sheet>
  );
}

/** Shown for the week to come: what is farther off belongs in the season's plan. */
const AHEAD_MS = 7 * 86_400_000;

function problemsOf(form: Form): { day?: string; note?: string } {
  const value = { job: form.job, day: form.day, note: form.note };
  const said = checkGroup("claim", "claim", value, units.value);
  const away = Date.parse(form.day) - Date.parse(day());
  const near =
    form.day && (away < 0 || away > AHEAD_MS) ? { day: "Choose a day from today to 7 days ahead." } : {};
  return { ...said, ...near };
}

function SayForm({ onClose }: { onClose: () => void }) {
  const [form, setForm] = useState<Form>(blank);
  const [tried, setTried] = useState(false);
  const set = (part: Partial<Form>) => setForm({ ...form, ...part });
  const problems = problemsOf(form);
  async function save(event: Event): Promise<void> {
    event.preventDefault();
    setTried(true);
    if (Object.keys(problems).length) return;
    const { job, zones, note } = form;
    const what = JOBS.find(({ value }) => value === job)?.label ?? "It";
    if (await takeOn({ job, day: form.day, zoneIds: zones, note }, what)) onClose();
  }
  return (
    <form class="stack" onSubmit={save} noValidate>
      <p>Your household sees this. You can drop it any time.</p>
      <ChoiceField label="Job" value={form.job} onInput={(job) => set({ job: job as Job })} choices={JOBS} />
      <TextField
        label="Day"
        type="date"
        value={form.day}
        onInput={(when) => set({ day: when })}
        error={tried ? problems.day : undefined}
      />
      <fieldset class="field">
        <legend class="field__label">Zones (leave blank for the whole yard)</legend>
        {today.zones.value.map(({ id, groups }) => (
          <CheckField
            key={id}
            label={String(groups["name"]?.value?.name ?? "Unnamed zone")}
            checked={form.zones.includes(id)}
            onInput={(on) =>
              set({ zones: on ? [...form.zones, id] : form.zones.filter((other) => other !== id) })
            }
          />
        ))}
      </fieldset>
      <TextField
        label="Note"
        maxLength={200}
        value={form.note}
        onInput={(note) => set({ note })}
        error={tried ? problems.note : undefined}
      />
      <Button type="submit" tone="signal" wide>
        Take it
      </Button>
    </form>
  );
}
