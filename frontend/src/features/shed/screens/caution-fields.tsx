import table from "../../../../../fixtures/published/signal_words.json";
import { ChoiceField, NumberField, TextField } from "../../../ui/parts";
import { formIn, type ProductProps } from "./form-in";

const WORDS = [
  { value: "", label: "Not checked" },
  { value: "none", label: "None on it" },
  { value: "caution", label: "CAUTION" },
  { value: "warning", label: "WARNING" },
  { value: "danger", label: "DANGER" },
];

const WATERING = [
  { value: "unsaid", label: "Label doesn’t say" },
  { value: "water_in", label: "Water it in" },
  { value: "keep_dry", label: "Keep it dry" },
];

/** What the label asks of the person; it governs everything the app says. */
export function CautionFields({ editor }: ProductProps) {
  const form = formIn(editor);
  const errors = editor.errors.value;
  const meaning = table.words.find(({ key }) => key === form.signal)?.says;
  return (
    <section class="section" aria-labelledby="caution">
      <h2 id="caution">Cautions on the label</h2>
      <ChoiceField
        label="Signal word"
        value={form.signal}
        choices={WORDS}
        look="row"
        hint={meaning}
        onInput={(signal) => editor.change({ signal })}
        error={errors["signal_word"]}
      />
      <ChoiceField
        label="Watering after spreading"
        value={form.watering}
        choices={WATERING}
        onInput={(watering) => editor.change({ watering })}
        error={errors["water_in"]}
      />
      <div class="fields-2">
        <NumberField
          label="Keep off for"
          unit="hours"
          value={form.keepOff}
          onInput={(keepOff) => editor.change({ keepOff })}
          error={errors["keep_off_hours"]}
        />
        <NumberField
          label="Minimum days between uses"
          unit="days"
          value={form.interval}
          onInput={(interval) => editor.change({ interval })}
          error={errors["interval_days"]}
        />
      </div>
      <div class="fields-2">
        <NumberField
          label="Most uses in a year"
          unit="uses"
          whole
          value={form.usesYear}
          onInput={(usesYear) => editor.change({ usesYear })}
          error={errors["uses_year"]}
        />
        <NumberField
          label="Days to sowing"
          hint="How long seed must wait after it."
          unit="days"
          value={form.seedWait}
          onInput={(seedWait) => editor.change({ seedWait })}
          error={errors["seed_wait_days"]}
        />
      </div>
      <TextField
        label="Other label notes"
        multiline
        maxLength={2000}
        value={form.remarks}
        onInput={(remarks) => editor.change({ remarks })}
        error={errors["remarks"]}
      />
    </section>
  );
}
