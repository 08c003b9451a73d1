import { height, range, unitsFor } from "../../format";
import { GRASS_CHOICES, grassOf, printedCut, saySource } from "../../models/grasses";
import { units } from "../../models/session";
import { CheckField, ChoiceField, NumberField, TextField, UnitField } from "../../parts";
import { type MeasureProps, shownErrors } from "./shown";
import { orBlank, SITE } from "./site";

const CHOICES = [{ value: "", label: "Not known" }, ...GRASS_CHOICES];

export function GrassFields({ editor, form }: MeasureProps) {
  const errors = shownErrors(editor);
  const known = form.grass === "" || grassOf(form.grass);
  return (
    <section class="section" aria-labelledby="grass">
      <h2 id="grass">Grass and cut</h2>
      <ChoiceField
        label="Grass"
        look="list"
        hint="The main one, where it is a mixture."
        value={form.grass}
        onInput={(grass) => editor.change({ grass })}
        choices={known ? CHOICES : [...CHOICES, { value: form.grass, label: form.grass }]}
        error={errors["grass"]}
      />
      <PrintedCut grass={form.grass} />
      <UnitField
        label="Height of cut"
        units={unitsFor("height", units.value)}
        value={form.cut}
        onInput={(cut) => editor.change({ cut })}
        error={errors["cut_height_mm"]}
      />
      <NumberField
        label="Days between cuts in growth"
        unit="days"
        hint="Left blank: twice a week, which is common practice."
        value={form.mowEvery}
        onInput={(mowEvery) => editor.change({ mowEvery })}
        error={errors["mow_every_days"]}
      />
    </section>
  );
}

/** What is printed for a home lawn of this grass, and who printed it. */
function PrintedCut({ grass }: { grass: string }) {
  const found = grassOf(grass);
  if (!found) return null;
  const system = units.value;
  const between = (low: number, high: number) => range(height(low, system), height(high, system)).text;
  const { range: shared, rows } = printedCut(found);
  if (!rows.length)
    return <p class="quiet">No published height of cut for a home lawn was found for this grass.</p>;
  return (
    <details>
      <summary>
        Published for home lawns: {shared ? between(shared.low, shared.high) : "it depends on the place"}
      </summary>
      <ul class="stack stack--tight">
        {rows.map((row) => (
          <li key={row.sources.join()}>
            {row.where}: {between(row.low_mm, row.high_mm)}
            {row.remark ? ` (${row.remark})` : ""}.{" "}
            <span class="quiet">{row.sources.map(saySource).join("; ")}</span>
          </li>
        ))}
      </ul>
    </details>
  );
}

/** Which way the strips of a walk run; the plan chooses where nothing is said. */
export function StripsField({ editor, form }: MeasureProps) {
  return (
    <NumberField
      label="Heading of the strips"
      unit="°"
      hint="Clockwise from up on the drawing: 0 runs up it, 90 across. Left blank, the plan takes the way with the fewest turns."
      value={form.heading}
      onInput={(heading) => editor.change({ heading })}
      error={shownErrors(editor)["heading_deg"]}
    />
  );
}

export function SiteFields({ editor, form }: MeasureProps) {
  const errors = shownErrors(editor);
  return (
    <section class="section" aria-labelledby="site">
      <h2 id="site">Site</h2>
      <ChoiceField
        label="Sun"
        value={form.sun}
        onInput={(sun) => editor.change({ sun })}
        choices={orBlank(SITE.sun)}
        error={errors["sun"]}
      />
      <ChoiceField
        label="Slope"
        value={form.slope}
        onInput={(slope) => editor.change({ slope })}
        choices={orBlank(SITE.slope)}
        error={errors["slope"]}
      />
      <StripsField editor={editor} form={form} />
      <TextField
        label="Soil"
        maxLength={60}
        value={form.soil}
        onInput={(soil) => editor.change({ soil })}
        error={errors["soil"]}
      />
      <CheckField
        label="Runs down to water"
        hint="A ditch, stream, pond or drain: the walk will remind you to keep away from it."
        checked={form.nearWater}
        onInput={(nearWater) => editor.change({ nearWater })}
      />
      <TextField
        label="Trouble spots and remarks"
        multiline
        maxLength={2000}
        value={form.remarks}
        onInput={(remarks) => editor.change({ remarks })}
        error={errors["remarks"]}
      />
      <CheckField
        label="Show patch"
        hint="The best grass of the yard, kept as the standard for the rest."
        checked={form.show}
        onInput={(show) => editor.change({ show })}
      />
    </section>
  );
}
