import { describe, expect, it } from "vitest";
import { fakeBook, fakeEngine, groups } from "../../../records/fake-book";
import { checkGroup } from "../../../records/kinds";
import { createShed, densityCall } from "./shed";
import { blankProduct, blankSpreader, productGroups, spreaderGroups } from "./shed-forms";

function shed(store = fakeBook()) {
  const engine = fakeEngine({
    "record.totals": {
      products: {
        slow: {
          used_since_count_kg: 0,
          bought_since_kg: 0,
          counted_kg: 12,
          counted_at: "2026-05-01",
          left_kg: 12,
        },
      },
    },
  });
  const parts = { store, engine, day: () => "2026-05-14", system: () => "us" as const, check: checkGroup };
  return { store, model: createShed(parts) };
}

const FORM = {
  ...blankProduct("us"),
  name: " Plain 23-0-9 ",
  net: { amount: "44", unit: "lb" },
  coverage: { amount: "14,500", unit: "ft2" },
  n: "23",
  p2o5: "0",
  k2o: "9",
  slow: "30 %",
  signal: "caution",
};

describe("a label as typed", () => {
  it("is stored in SI beside what was typed (international pound and foot, exact)", () => {
    const errors = {};
    const read = productGroups(FORM, errors);
    expect(errors).toEqual({});
    expect(read["label"]).toEqual({
      net_kg: 44 * 0.45359237,
      net_typed: { amount: "44", unit: "lb" },
      coverage_m2: expect.closeTo(14500 * 0.3048 * 0.3048, 9),
      coverage_typed: { amount: "14,500", unit: "ft2" },
    });
    expect(read["analysis"]).toEqual({ n_percent: 23, p2o5_percent: 0, k2o_percent: 9, slow_n_share: 0.3 });
    expect(read["caution"]).toEqual({ signal_word: "caution" });
  });

  it("takes a weight and a coverage with their units, whatever the boxes are set to", async () => {
    const { store, model } = shed();
    const editor = model.productEditor(null);
    await editor.open(undefined);
    const label = {
      net: { amount: "15 lb 8 oz", unit: "kg" },
      coverage: { amount: "5 000 m²", unit: "ft2" },
    };
    editor.change({ ...FORM, ...label });
    expect(await editor.save(undefined)).toBeDefined();
    expect(store.saved[0]?.[0]?.set?.["label"]).toEqual({
      net_kg: expect.closeTo(15.5 * 0.45359237, 12),
      net_typed: { amount: "15 lb 8 oz", unit: "lb" },
      coverage_m2: 5000,
      coverage_typed: { amount: "5 000", unit: "m2" },
    });
  });

  it("keeps in the box what is refused, and says why", async () => {
    const { store, model } = shed();
    const editor = model.productEditor(null);
    await editor.open(undefined);
    editor.change({ ...FORM, net: { amount: "2.5 fl oz", unit: "lb" } });
    expect(await editor.save(undefined)).toBeUndefined();
    expect(editor.errors.value["net_kg"]).toContain(
      "“fl oz” is a volume, not a weight. Enter a number and one of:",
    );
    expect(editor.form.value?.net).toEqual({ amount: "2.5 fl oz", unit: "lb" });
    expect(store.saved).toEqual([]);
  });

  it("names the unreadable field and keeps all the others", () => {
    const errors: Record<string, string> = {};
    const read = productGroups({ ...FORM, coverage: { amount: "lots", unit: "ft2" }, price: "x" }, errors);
    expect(Object.keys(errors).sort()).toEqual(["coverage_m2", "price"]);
    expect(read["label"]).toHaveProperty("net_kg");
  });

  it("refuses an analysis of more than the whole bag", () => {
    const errors: Record<string, string> = {};
    productGroups({ ...FORM, n: "60", p2o5: "30", k2o: "20" }, errors);
    expect(errors["n_percent"]).toContain("110% together. Allowed is 0 to 100% together");
  });

  it("is saved with its name trimmed, and shown back as typed", async () => {
    const { store, model } = shed();
    const editor = model.productEditor(null);
    await editor.open(undefined);
    editor.change(FORM);
    const id = (await editor.save(undefined))?.id ?? "";
    expect(store.row("product", id).value?.groups["name"]?.value).toEqual({
      name: "Plain 23-0-9",
      sort: "fertilizer",
    });
    const again = model.productEditor(id);
    await again.open(store.row("product", id).value);
    expect(again.form.value).toMatchObject({ net: FORM.net, coverage: FORM.coverage, slow: "30" });
  });

  it("saves nothing without a net weight and says what is allowed", async () => {
    const { store, model } = shed();
    const editor = model.productEditor(null);
    await editor.open(undefined);
    editor.change({ name: "Lime" });
    expect(await editor.save(undefined)).toBeUndefined();
    expect(editor.errors.value["net_kg"]).toMatch(/Net weight is missing.*Allowed/);
    expect(store.saved).toEqual([]);
  });

  it("refuses a slow-release share above the whole of the nitrogen", async () => {
    const { model } = shed();
    const editor = model.productEditor(null);
    await editor.open(undefined);
    editor.change({ ...FORM, slow: "130" });
    expect(await editor.save(undefined)).toBeUndefined();
    expect(editor.errors.value["slow_n_share"]).toBeTruthy();
  });

  it("does not scold about blank fields before the first try to save", async () => {
    const { model } = shed();
    const editor = model.productEditor(null);
    await editor.open(undefined);
    editor.change({ net: { amount: "-", unit: "lb" } });
    expect(Object.keys(editor.errors.value)).toEqual(["net_kg"]);
  });

  it("survives a reload half filled and is forgotten once saved", async () => {
    const { store, model } = shed();
    const first = model.productEditor(null);
    await first.open(undefined);
    first.change({ name: "Slow", net: { amount: "5", unit: "lb" } });
    const second = model.productEditor(null);
    await second.open(undefined);
    expect(second.resumed.value).toBe(true);
    expect(second.form.value).toMatchObject({ name: "Slow", net: { amount: "5", unit: "lb" } });
    await second.save(undefined);
    expect(store.kept.size).toBe(0);
  });
});

describe("changing a product", () => {
  const store = () => {
    const book = fakeBook();
    const label = { net_kg: 20, net_typed: { amount: "20", unit: "kg" }, later_field: 7 };
    book.put({
      t: "product",
      id: "slow",
      groups: groups({ name: { name: "Slow", sort: "fertilizer" }, label, price: { price: 40 } }),
    });
    return book;
  };

  it("writes only the groups that were changed and keeps fields it does not know", async () => {
    const { store: book, model } = shed(store());
    const row = book.row("product", "slow").value;
    const editor = model.productEditor("slow");
    await editor.open(row);
    editor.change({ net: { amount: "25", unit: "kg" } });
    await editor.save(row);
    expect(book.saved).toEqual([
      [
        {
          t: "product",
          id: "slow",
          set: { label: { net_kg: 25, net_typed: { amount: "25", unit: "kg" }, later_field: 7 } },
        },
      ],
    ]);
  });

  it("leaves alone what another phone changed while the form was open", async () => {
    const { store: book, model } = shed(store());
    const editor = model.productEditor("slow");
    await editor.open(book.row("product", "slow").value);
    editor.change({ name: "Slow feed" });
    await book.save([{ t: "product", id: "slow", set: { price: { price: 55 } } }]);
    await editor.save(book.row("product", "slow").value);
    expect(book.row("product", "slow").value?.groups["price"]?.value).toEqual({ price: 55 });
    expect(Object.keys(book.saved.at(-1)?.[0]?.set ?? {})).toEqual(["name"]);
  });

  it("leaves it alone after a reload too", async () => {
    const { store: book, model } = shed(store());
    const before = model.productEditor("slow");
    await before.open(book.row("product", "slow").value);
    before.change({ name: "Slow feed" });
    await book.save([{ t: "product", id: "slow", set: { price: { price: 55 } } }]);
    const after = model.productEditor("slow");
    await after.open(book.row("product", "slow").value);
    await after.save(book.row("product", "slow").value);
    expect(Object.keys(book.saved.at(-1)?.[0]?.set ?? {})).toEqual(["name"]);
    expect(book.row("product", "slow").value?.groups["price"]?.value).toEqual({ price: 55 });
  });

  it("clears a fact that was wiped from its field", async () => {
    const { store: book, model } = shed(store());
    const row = book.row("product", "slow").value;
    const editor = model.productEditor("slow");
    await editor.open(row);
    editor.change({ price: "" });
    await editor.save(row);
    expect(book.saved.at(-1)?.[0]?.set).toEqual({ price: {} });
  });

  it("is taken out with a way back, also once the removal was sent", async () => {
    const { store: book, model } = shed(store());
    const { op, back } = await model.takeOut("product", "slow");
    expect(model.products.value).toEqual([]);
    book.sent.add(op);
    await back();
    expect(model.products.value.map(({ id }) => id)).toEqual(["slow"]);
  });
});

describe("a weighed measure of a product", () => {
  it("goes to the engine in SI (1 L is 0.001 m3 by definition)", () => {
    const { args, errors } = densityCall({ amount: "1", unit: "litre" }, { amount: "750", unit: "g" });
    expect(args).toEqual({ sample_kg: 0.75, sample_m3: 0.001 });
    expect(errors).toEqual({});
  });

  it("asks nothing before both are written, and names what cannot be read", () => {
    expect(densityCall({ amount: "1", unit: "qt" }, { amount: "", unit: "oz" }).args).toBeNull();
    const { args, errors } = densityCall({ amount: "one", unit: "qt" }, { amount: "25", unit: "oz" });
    expect(args).toBeNull();
    expect(errors.volume).toContain("one");
    expect(errors.weight).toBeUndefined();
  });

  it("does not stop a form that was left half filled before there was such a measure", async () => {
    const { store, model } = shed();
    const { sampleVolume: _volume, sampleWeight: _weight, ...older } = blankProduct("us");
    store.kept.set("product-form:new", { form: { ...older, name: "Lime" }, opened: older });
    const editor = model.productEditor(null);
    await editor.open(undefined);
    expect(editor.form.value).toMatchObject({ name: "Lime", sampleVolume: { amount: "" } });
  });
});

describe("a spreader", () => {
  const dial = { ...blankSpreader("us"), name: "Rotary", lowest: "1", highest: "24", step: "1/2" };

  it("keeps its dial as one group", () => {
    const errors = {};
    expect(spreaderGroups(dial, errors)["dial"]).toEqual({ lowest: 1, highest: 24, step: 0.5 });
    expect(errors).toEqual({});
  });

  it("refuses a dial that does not open and a click wider than the dial", () => {
    const errors: Record<string, string> = {};
    spreaderGroups({ ...dial, highest: "1" }, errors);
    spreaderGroups({ ...dial, step: "30" }, errors);
    expect(errors["highest"]).toContain("more than the lowest (1)");
    expect(errors["step"]).toContain("at most 23");
  });

  it("wants all five measures of a hopper or none", () => {
    const errors: Record<string, string> = {};
    const hopper = { ...dial.hopper, height_m: { amount: "12", unit: "in" } };
    spreaderGroups({ ...dial, hopper }, errors);
    expect(Object.keys(errors)).toHaveLength(4);
    expect(errors["top_length_m"]).toContain("all five");
  });

  it("can be saved without walking and hopper measures", async () => {
    const { store, model } = shed();
    const editor = model.spreaderEditor(null);
    await editor.open(undefined);
    editor.change(dial);
    expect(await editor.save(undefined)).toBeTruthy();
    expect(Object.keys(store.saved[0]?.[0]?.set ?? {}).sort()).toEqual(["dial", "name"]);
  });

  it("wants the speed once a swath is given, since they are one group", async () => {
    const { model } = shed();
    const editor = model.spreaderEditor(null);
    await editor.open(undefined);
    editor.change({ ...dial, swath: { amount: "5", unit: "ft" } });
    expect(await editor.save(undefined)).toBeUndefined();
    expect(editor.errors.value["speed_m_s"]).toContain("missing");
  });
});
