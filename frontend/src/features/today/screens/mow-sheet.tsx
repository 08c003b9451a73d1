import { useEffect, useState } from "preact/hooks";
import { height, isoMoment, percent, type System, type Typed, unitOf, unitsFor } from "../../../format";
import { momentFromLocal } from "../../../format/moment";
import { allRead, parse } from "../../../forms/amount";
import { sayRefusal } from "../../../forms/refusal";
import { whenTrouble } from "../../../forms/when";
import { useEngine } from "../../../platform/engine";
import { units } from "../../../platform/session/session";
import { given } from "../../../records/entries";
import { checkGroup } from "../../../records/kinds";
import {
  Button,
  CheckField,
  ChoiceField,
  Figure,
  Notice,
  Sheet,
  TextField,
  UnitField,
} from "../../../ui/parts";
import { KeepOffNotices } from "../keep-off";
import { today } from "../model";
import { noteMow } from "./note-mow";

interface Form {
  zones: readonly string[];
  when: string;
  before: Typed;
  cut: Typed;
  clippings: string;
  note: string;
}

function blank(): Form {
  // The person's own unit until they choose one: their record may not be read yet.
  const unit = "";
  return {
    zones: today.wanting.value.map((zone) => zone.id),
    when: isoMoment().slice(0, 16),
    before: { amount: "", unit },
    cut: { amount: "", unit },
    clippings: "",
    note: "",
  };
}

function inUnits(form: Form, system: System): Form {
  const own = (typed: Typed): Typed => ({ ...typed, unit: typed.unit || unitOf("height", system).key });
  return { ...form, before: own(form.before), cut: own(form.cut) };
}

function millimetres(typed: Typed): number | undefined {
  const read = parse(typed.amount, typed.unit);
  return read.ok ? read.si : undefined;
}

type Errors = Partial<Record<keyof Form, string>>;

function errorsOf(form: Form, system: System): Errors {
  const heights = (["before", "cut"] as const).flatMap((field) => {
    if (!form[field].amount.trim()) return [];
    const read = parse(form[field].amount, form[field].unit);
    if (!read.ok) return [[field, read.message]];
    const name = field === "cut" ? "cut_height_mm" : "height_before_mm";
    const said = checkGroup("entry", "mow", { [name]: read.si }, system, { [name]: form[field].unit })[name];
    return said ? [[field, said]] : [];
  });
  return {
    ...Object.fromEntries(heights),
    ...(form.zones.length ? {} : { zones: "Choose at least one zone." }),
    ...given({ when: whenTrouble(form.when, system) }),
  };
}

/** A mow with what else is known of it; the one-third check stands beside the heights. */
export function MowSheet({ open, onClose }: { open: boolean; onClose: () => void }) {
  const system = units.value;
  const [written, setForm] = useState<Form>(blank);
  const form = inUnits(written, system);
  const [tried, setTried] = useState(false);
  useEffect(() => {
    if (open) {
      setForm(blank());
      setTried(false);
    }
  }, [open]);
  const set = (part: Partial<Form>) => setForm({ ...form, ...part });
  const errors = errorsOf(form, system);
  const shown = tried ? errors : {};

  async function save(event: Event): Promise<void> {
    event.preventDefault();
    setTried(true);
    await allRead();
    if (Object.keys(errorsOf(form, system)).length) return;
    const what = form.zones.length === 1 ? "One zone" : `${form.zones.length} zones`;
    const stored = await noteMow(form.zones, what, {
      occurred_at: momentFromLocal(form.when),
      cut_height_mm: millimetres(form.cut),
      height_before_mm: millimetres(form.before),
      clippings: form.clippings,
      note: form.note,
    });
    if (stored) onClose();
  }

  return (
    <Sheet open={open} onClose={onClose} title="Log a mow">
      <form class="stack" onSubmit={save} noValidate>
        <Zones chosen={form.zones} onInput={(zones) => set({ zones })} error={shown.zones} />
        <KeepOffNotices zoneIds={form.zones} />
        <TextField
          label="When"
          type="datetime-local"
          value={form.when}
          onInput={(when) => set({ when })}
          error={shown.when}
        />
        <div class="fields-2">
          <UnitField
            label="Height before"
            units={unitsFor("height", system)}
            value={form.before}
            onInput={(before) => set({ before })}
            error={shown.before}
          />
          <UnitField
            label="Cut to"
            units={unitsFor("height", system)}
            value={form.cut}
            onInput={(cut) => set({ cut })}
            error={shown.cut}
          />
        </div>
        <ThirdCheck before={form.before} cut={form.cut} system={system} />
        <ChoiceField
          label="Clippings"
          value={form.clippings}
          onInput={(clippings) => set({ clippings })}
          choices={[
            { value: "", label: "Not recorded" },
            { value: "left", label: "Left" },
            { value: "collected", label: "Collected" },
          ]}
        />
        <TextField
          label="Note"
          multiline
          maxLength={4000}
          value={form.note}
          onInput={(note) => set({ note })}
        />
        <Button type="submit" tone="signal" wide>
          Save the mow
        </Button>
      </form>
    </Sheet>
  );
}

interface ZonesProps {
  chosen: readonly string[];
  onInput: (zones: string[]) => void;
  error: string | undefined;
}

function Zones({ chosen, onInput, error }: ZonesProps) {
  return (
    <fieldset class="field" aria-invalid={error ? "true" : undefined}>
      <legend class="field__label">Zones</legend>
      {today.zones.value.map((row) => (
        <CheckField
          key={row.id}
          label={String(row.groups["name"]?.value?.name ?? "Unnamed zone")}
          checked={chosen.includes(row.id)}
          onInput={(on) => onInput(on ? [...chosen, row.id] : chosen.filter((id) => id !== row.id))}
        />
      ))}
      <span aria-live="polite">{error ? <span class="field__error">{error}</span> : null}</span>
    </fieldset>
  );
}

/** The one-third rule on the two heights, as soon as both are written. */
function ThirdCheck({ before, cut, system }: { before: Typed; cut: Typed; system: System }) {
  const [height_mm, target_mm] = [millimetres(before), millimetres(cut)];
  const asked = height_mm !== undefined && target_mm !== undefined ? { height_mm, target_mm } : null;
  const { answer } = useEngine("mowing.cut", asked);
  if (!asked) return <p class="quiet">Enter both heights to check the one-third rule.</p>;
  if (!answer) return <p aria-busy="true">Checking …</p>;
  if (answer.error) return <Notice kind="bad">{sayRefusal(answer.error, system)}</Notice>;
  const { allowed, cut_to_mm, removed_share, too_short, beyond_mower } = answer.value;
  if (too_short)
    return (
      <Notice kind="warn" title="Nothing to cut">
        <p>The grass is no taller than the mowing height. Check both heights.</p>
      </Notice>
    );
  return (
    <div aria-live="polite" class="stack">
      {allowed ? (
        <Notice kind="good">
          <p>Within the one-third rule.</p>
        </Notice>
      ) : (
        <Notice kind="warn" title="More than a third of the blade">
          {beyond_mower ? (
            <p>Too tall for a mower. Trim off a third by hand first, then again every few days.</p>
          ) : (
            <p>Don’t cut below {height(cut_to_mm, system).text} now. Go lower in a few days.</p>
          )}
        </Notice>
      )}
      <Figure
        label={allowed ? "Share of the blade cut" : "Share cut at that height"}
        value={percent(removed_share).text}
        working={answer.working}
      />
    </div>
  );
}
