import { readNumber, unitsFor } from "../../../format";
import { units } from "../../../platform/session/session";
import { writeDial } from "../../../records/products";
import { DialDrawing, drawable } from "../../../ui/drawing";
import { CheckField, ChoiceField, NumberField, TextField, UnitField } from "../../../ui/parts";
import { shed } from "../model";
import { CurvePart } from "./curve-part";
import { FormPage, useEditor } from "./editing";
import { formIn, type SpreaderProps } from "./form-in";
import { HopperPart } from "./hopper-part";
import { TraysPart } from "./trays/part";

const SORTS = [
  { value: "rotary", label: "Rotary: throws in a fan" },
  { value: "drop", label: "Drop: falls straight down" },
];

export function SpreaderPage({ id }: { id: string | null }) {
  const { editor, row } = useEditor("spreader", id, shed.spreaderEditor);
  const title = id ? (row?.groups["name"]?.value?.name ?? "Spreader") : "New spreader";
  return (
    <FormPage sort="spreader" title={title} editor={editor} row={row} id={id}>
      <NamePart editor={editor} />
      <DialPart editor={editor} />
      {id ? <CurvePart id={id} /> : null}
      <WalkingPart editor={editor} />
      {id ? <TraysPart id={id} /> : null}
      <HopperPart editor={editor} />
    </FormPage>
  );
}

function NamePart({ editor }: SpreaderProps) {
  const form = formIn(editor);
  return (
    <>
      <TextField
        label="Name"
        value={form.name}
        onInput={(name) => editor.change({ name })}
        error={editor.errors.value["name"]}
        required
      />
      <ChoiceField
        label="Type of spreader"
        value={form.sort}
        choices={SORTS}
        onInput={(sort) => editor.change({ sort })}
        error={editor.errors.value["sort"]}
      />
    </>
  );
}

const DIAL = [
  ["lowest", "Lowest number", "Closed."],
  ["highest", "Highest number", "Fully open."],
  ["step", "One click", "1, or 0.5 if it has half clicks."],
] as const;

/** The dial's three numbers, and the dial they make, drawn as they are typed. */
function DialPart({ editor }: SpreaderProps) {
  const form = formIn(editor);
  const [lowest, highest, step] = [form.lowest, form.highest, form.step].map((text) => {
    const read = readNumber(text);
    return read.ok ? read.value : Number.NaN;
  }) as [number, number, number];
  const scale = { lowest, highest, step };
  return (
    <section class="section" aria-labelledby="dial">
      <h2 id="dial">The dial</h2>
      <div class="fields-2">
        {DIAL.map(([field, label, hint]) => (
          <NumberField
            key={field}
            label={label}
            hint={hint}
            value={form[field]}
            onInput={(text) => editor.change({ [field]: text })}
            error={editor.errors.value[field]}
            required
          />
        ))}
      </div>
      {drawable(scale) ? (
        <DialDrawing {...scale} write={(n) => writeDial(n, step)} />
      ) : (
        <p class="quiet">Enter all three numbers to see the dial.</p>
      )}
    </section>
  );
}

function WalkingPart({ editor }: SpreaderProps) {
  const form = formIn(editor);
  const errors = editor.errors.value;
  return (
    <section class="section" aria-labelledby="walking">
      <h2 id="walking">Walking</h2>
      <UnitField
        label="Swath: distance between strips"
        hint={
          form.sort === "drop"
            ? "Drop spreader: use its own width."
            : "Rotary: start with 5 ft (1.5 m). A tray test gives the exact figure."
        }
        value={form.swath}
        units={unitsFor("length", units.value)}
        onInput={(swath) => editor.change({ swath })}
        error={errors["swath_m"]}
      />
      <UnitField
        label="Walking speed"
        hint="About 3 mph (4.8 km/h). Keep the same pace every time."
        value={form.speed}
        units={unitsFor("speed", units.value)}
        onInput={(speed) => editor.change({ speed })}
        error={errors["speed_m_s"]}
      />
      {form.sort === "rotary" ? (
        <CheckField
          label="Has an edge deflector"
          hint="A flap that shuts the fan on one side. Some local rules let you go nearer to water with it."
          checked={form.deflector}
          onInput={(deflector) => editor.change({ deflector })}
        />
      ) : null}
    </section>
  );
}
