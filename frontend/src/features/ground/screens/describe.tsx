import { height, range, unitsFor } from "../../../format";
import { units } from "../../../platform/session/session";
import { GRASS_CHOICES, grassOf, printedCut, saySource } from "../../../records/grasses";
import { CheckField, ChoiceField, NumberField, TextField, UnitField } from "../../../ui/parts";
import { edgesAtWater } from "../model/outline";
import { type MeasureProps, shownErrors } from "./measure/shown";
import { orBlank, SITE } from "./site";
import { WaterEdges } from "./water-edges";

const CHOICES = [{ value: "", label: "Not known" }, ...GRASS_CHOICES];

export function GrassFields({ editor, form }: MeasureProps) {
  const errors = shownErrors(editor);
  const known = form.grass === "" || grassOf(form.grass);
  return (
    <section class="section" aria-labelledby="grass">
      <h2 id="grass">Grass and mowing</h2>
      <ChoiceField
        label="Grass"
        look="list"
        hint="For a mix, choose the main grass."
        value={form.grass}
        onInput={(grass) => editor.change({ grass })}
        choices={known ? CHOICES : [...CHOICES, { value: form.grass, label: form.grass }]}
        error={errors["grass"]}
      />
      <PrintedCut grass={form.grass} />
      <UnitField
        label="Mowing height"
        units={unitsFor("height", units.value)}
        value={form.cut}
        onInput={(cut) => editor.change({ cut })}
        error={errors["cut_height_mm"]}
      />
      <NumberField
        label="Days between mows, growing season"
        unit="days"
        hint="Leave blank for twice a week (common practice)."
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
  if (!rows.length) return <p class="quiet">No published mowing height found for this grass.</p>;
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

/** Which way the strips of a job run; the plan chooses where nothing is said. */
export function StripsField({ editor, form }: MeasureProps) {
  return (
    <NumberField
      label="Strip direction"
      unit="°"
      hint="0° runs up the drawing, 90° runs across. Leave blank for the fewest turns."
      value={form.heading}
      onInput={(heading) => editor.change({ heading })}
      error={shownErrors(editor)["heading_deg"]}
    />
  );
}

/** The strip that stays clear: with both lengths the load leaves it out. */
function WaterFields({ editor, form }: MeasureProps) {
  const errors = shownErrors(editor);
  const marked = edgesAtWater(form.measures.outline.water, editor.corners.value.length).length > 0;
  return (
    <>
      <WaterEdges editor={editor} form={form} />
      {marked ? null : (
        <UnitField
          label="Length of the edge at the water"
          hint="With it, spreading leaves the strip at the water out of the load."
          value={form.waterEdge}
          units={unitsFor("length", units.value)}
          onInput={(waterEdge) => editor.change({ waterEdge })}
          error={errors["water_edge_m"]}
        />
      )}
      <UnitField
        label="Keep clear of the water"
        hint="What the label or your local rule says. Blank: the widest state rule read, 25 ft (7.6 m)."
        value={form.setback}
        units={unitsFor("length", units.value)}
        onInput={(setback) => editor.change({ setback })}
        error={errors["setback_m"]}
      />
    </>
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
        hint="A ditch, stream, pond or drain. The app will remind you to keep away."
        checked={form.nearWater}
        onInput={(nearWater) => editor.change({ nearWater })}
      />
      {form.nearWater ? <WaterFields editor={editor} form={form} /> : null}
      <TextField
        label="Notes and trouble spots"
        multiline
        maxLength={2000}
        value={form.remarks}
        onInput={(remarks) => editor.change({ remarks })}
        error={errors["remarks"]}
      />
      <CheckField
        label="Show patch"
        hint="Your best grass. Compare the rest with it."
        checked={form.show}
        onInput={(show) => editor.change({ show })}
      />
    </section>
  );
}
