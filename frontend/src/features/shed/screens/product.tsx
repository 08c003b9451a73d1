import { signal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import { showTyped, unitsFor } from "../../../format";
import { units } from "../../../platform/session/session";
import { PRODUCT_SORTS } from "../../../records/products";
import { BagLabel, type BagPlace } from "../../../ui/drawing";
import { ChoiceField, NumberField, TextField, UnitField } from "../../../ui/parts";
import { shed } from "../model";
import type { ProductForm } from "../model/shed-forms";
import { CautionFields } from "./caution-fields";
import { DensityFields } from "./density";
import { FormPage, useEditor } from "./editing";
import { formIn, type ProductProps } from "./form-in";
import { LabelFigures } from "./label-figures";
import { StockCount } from "./stock";

export function ProductPage({ id }: { id: string | null }) {
  const { editor, row } = useEditor("product", id, shed.productEditor);
  const title = id ? (row?.groups["name"]?.value?.name ?? "Product") : "New product";
  return (
    <FormPage
      sort="product"
      title={title}
      editor={editor}
      row={row}
      id={id}
      above={id ? <StockCount id={id} /> : null}
    >
      <LabelPart editor={editor} />
      <LabelFigures editor={editor} />
      <CautionFields editor={editor} />
      <MorePart editor={editor} />
    </FormPage>
  );
}

/** Where to look on a bag; common practice, and the order of the three numbers is the trade's own. */
const WHERE: Partial<Record<BagPlace, string>> = {
  name: "Name: across the front.",
  analysis: "Three numbers with dashes: N, P₂O₅, K₂O, always in that order.",
  slow: "Slow-release: small print by the guaranteed analysis.",
  coverage: "Bag covers: on the front, or by the spreader settings.",
  net: "Net weight: at the bottom of the front.",
  price: "Tap a field to see where to find it on the bag.",
};

/** The label entry beside the drawn bag, which shows where the field in focus stands. */
function LabelPart({ editor }: ProductProps) {
  const focus = useMemo(() => signal<BagPlace | undefined>(undefined), []);
  const form = formIn(editor);
  const typed = (field: ProductForm["net"]) => (field.amount.trim() ? showTyped(field) : "");
  return (
    <section class="section" aria-labelledby="label">
      <h2 id="label">The label</h2>
      <div class="shed__label">
        <div class="shed__bag">
          <BagLabel
            name={form.name}
            net={typed(form.net)}
            coverage={typed(form.coverage)}
            n={form.n}
            p2o5={form.p2o5}
            k2o={form.k2o}
            slow={form.slow}
            signal={form.signal}
            focus={focus.value}
          />
          <p role="status">{WHERE[focus.value ?? "price"]}</p>
        </div>
        <LabelFields
          editor={editor}
          point={(place) => () => {
            focus.value = place;
          }}
        />
      </div>
    </section>
  );
}

function LabelFields({ editor, point }: ProductProps & { point: (place: BagPlace) => () => void }) {
  const form = formIn(editor);
  const errors = editor.errors.value;
  const { change } = editor;
  return (
    <div class="stack">
      <TextField
        label="Name"
        value={form.name}
        onInput={(name) => change({ name })}
        onFocus={point("name")}
        error={errors["name"]}
        required
      />
      <ChoiceField
        label="Type of product"
        value={form.sort}
        choices={PRODUCT_SORTS}
        onInput={(sort) => change({ sort })}
        error={errors["sort"]}
      />
      <UnitField
        label="Net weight"
        value={form.net}
        units={unitsFor("mass", units.value)}
        words
        onInput={(net) => change({ net })}
        onFocus={point("net")}
        error={errors["net_kg"]}
        required
      />
      <UnitField
        label="Bag covers"
        hint="Area one bag covers, from the label."
        value={form.coverage}
        units={unitsFor("area", units.value)}
        words
        onInput={(coverage) => change({ coverage })}
        onFocus={point("coverage")}
        error={errors["coverage_m2"]}
      />
      <AnalysisFields editor={editor} point={point} />
    </div>
  );
}

const NUTRIENTS = [
  ["n", "Nitrogen, N", "n_percent"],
  ["p2o5", "Phosphate, P₂O₅", "p2o5_percent"],
  ["k2o", "Potash, K₂O", "k2o_percent"],
] as const;

function AnalysisFields({ editor, point }: ProductProps & { point: (place: BagPlace) => () => void }) {
  const form = formIn(editor);
  return (
    <fieldset class="shed__three">
      <legend class="field__label">Analysis: the three numbers</legend>
      <div class="fields-2">
        {NUTRIENTS.map(([key, label, field]) => (
          <NumberField
            key={key}
            label={label}
            unit="%"
            value={form[key]}
            onInput={(text) => editor.change({ [key]: text })}
            onFocus={point("analysis")}
            error={editor.errors.value[field]}
          />
        ))}
        <NumberField
          label="Slow-release"
          unit="% of N"
          value={form.slow}
          onInput={(slow) => editor.change({ slow })}
          onFocus={point("slow")}
          error={editor.errors.value["slow_n_share"]}
        />
      </div>
      <ChoiceField
        label="Kind of nitrogen"
        hint="In the small print under “derived from”."
        look="list"
        value={form.source}
        choices={NITROGEN_KINDS}
        onInput={(source) => editor.change({ source })}
        error={editor.errors.value["source"]}
      />
    </fieldset>
  );
}

const NITROGEN_KINDS = [
  { value: "", label: "Not known" },
  { value: "soluble", label: "Quick: urea, ammonium, nitrate" },
  { value: "sulfur_coated", label: "Sulfur-coated" },
  { value: "polymer_coated", label: "Polymer-coated" },
  { value: "condensed", label: "Urea-form, methylene urea" },
  { value: "ibdu", label: "IBDU" },
  { value: "natural", label: "Natural: manure, meal, biosolids" },
];

const GRANULES = [
  { value: "", label: "Not known" },
  { value: "fine", label: "Fine, about 1 mm" },
  { value: "medium", label: "Medium, about 1.6 mm" },
  { value: "coarse", label: "Coarse, about 2.5 mm" },
];

/** What the dial learns from, and the price. */
function MorePart({ editor }: ProductProps) {
  const form = formIn(editor);
  const errors = editor.errors.value;
  return (
    <section class="section" aria-labelledby="granules">
      <h2 id="granules">Granules and price</h2>
      <ChoiceField
        label="Granule size"
        look="list"
        hint="Big granules need a wider opening before they flow."
        value={form.granules}
        choices={GRANULES}
        onInput={(granules) => editor.change({ granules })}
        error={errors["granules"]}
      />
      <DensityFields editor={editor} />
      <NumberField
        label="Price of one bag"
        value={form.price}
        onInput={(price) => editor.change({ price })}
        error={errors["price"]}
      />
    </section>
  );
}
