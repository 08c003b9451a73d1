/** Every field of the forms that has a limit: too much and too little, in each unit it can be set to. */
import { describe, expect, it } from "vitest";
import { createGround } from "../features/ground/model/ground";
import { createShed } from "../features/shed/model/shed";
import { HOPPER_FIELDS } from "../features/shed/model/shed-forms";
import { blankTrays, readTrays } from "../features/shed/model/trays";
import { type Quantity, type System, unitsFor } from "../format";
import { fakeBook, fakeEngine } from "../records/fake-book";
import { checkGroup } from "../records/kinds";

const SYSTEMS = ["us", "metric"] as const;
const NBSP = "\u00a0";

function parts(system: System) {
  return {
    store: fakeBook(),
    engine: fakeEngine({ "record.totals": {} }),
    day: () => "2026-05-14",
    system: () => system,
    check: checkGroup,
  };
}

/** What the form says of a field once it was tried to save. */
async function said(editor: any, part: object, field: string): Promise<string> {
  await editor.open(undefined);
  editor.change(part);
  await editor.save(undefined);
  return editor.errors.value[field] ?? "";
}

type Row = readonly [form: string, field: string, quantity: Quantity, stored: string];

const AMOUNTS: readonly Row[] = [
  ["product", "net", "mass", "net_kg"],
  ["product", "coverage", "area", "coverage_m2"],
  ["product", "density", "density", "bulk_density_kg_m3"],
  ["spreader", "swath", "length", "swath_m"],
  ["spreader", "speed", "speed", "speed_m_s"],
  ["spreader", "holds", "mass", "holds_kg"],
  ...HOPPER_FIELDS.map(([field]) => ["hopper", field, "length", field] as const),
  ["zone", "cut", "height", "cut_height_mm"],
];

const EVERY = AMOUNTS.flatMap(([form, field, quantity, stored]) =>
  SYSTEMS.flatMap((system) =>
    unitsFor(quantity, system).map(({ key, label }) => ({ form, field, stored, system, key, label })),
  ),
);

function editorOf(form: string, system: System): any {
  const model = parts(system);
  if (form === "zone") return createGround(model).edit(null);
  const shed = createShed(model);
  return form === "product" ? shed.productEditor(null) : shed.spreaderEditor(null);
}

describe("a limit in a form", () => {
  it.each(EVERY)("of $field in the form of a $form is said in $label ($system)", async (row) => {
    for (const amount of ["99000000", "0.0000001"]) {
      const editor = editorOf(row.form, row.system);
      await editor.open(undefined);
      const typed = { amount, unit: row.key };
      const part =
        row.form === "hopper"
          ? { hopper: { ...editor.form.value.hopper, [row.field]: typed } }
          : { [row.field]: typed };
      expect(await said(editor, part, row.stored)).toMatch(
        new RegExp(`Allowed is [\\d.,\u202f]+ to [\\d.,\u202f]+${NBSP}${row.label.replace("/", "\\/")}\\.$`),
      );
    }
  });

  it.each([
    ["product", { n: "23", slow: "150" }, "slow_n_share", "0 to 100%"],
    ["product", { n: "150" }, "n_percent", "0 to 100%"],
    ["product", { p2o5: "150" }, "p2o5_percent", "0 to 100%"],
    ["product", { k2o: "-1" }, "k2o_percent", "0 to 100%"],
    ["product", { n: "60", p2o5: "60", k2o: "0" }, "n_percent", "0 to 100% together"],
    ["product", { keepOff: "9999" }, "keep_off_hours", "0 to 720 hours"],
    ["product", { interval: "999" }, "interval_days", "0 to 365 days"],
    ["product", { price: "-1" }, "price", "0 to 100,000"],
    ["zone", { mowEvery: "99" }, "mow_every_days", "1 to 60 days"],
    ["zone", { heading: "400" }, "heading_deg", "0 to 360°"],
  ] as const)("of a %s with %j is what its field asks for", async (form, part, field, range) => {
    for (const system of SYSTEMS) {
      const found = await said(editorOf(form, system), part, field);
      expect(found.replace("\u202f", ",")).toContain(`Allowed is ${range}.`);
    }
  });

  it("keeps 50 % as half, and 0.3 % as what it says", async () => {
    for (const [slow, share] of [
      ["50", 0.5],
      ["50 %", 0.5],
      ["0.3", 0.003],
    ] as const) {
      const editor = editorOf("product", "us");
      await said(editor, { n: "23", slow }, "slow_n_share");
      expect(editor.read.value.value["analysis"].slow_n_share).toBeCloseTo(share, 12);
    }
  });

  it.each(SYSTEMS)("of a tray test is said in the unit of its field (%s)", (system) => {
    const form = { ...blankTrays(system), trays: "3", catches: ["999999", "1", "1"], dial: "5000" };
    const { errors } = readTrays({ ...form, spacing: { ...form.spacing, amount: "9000" } }, system);
    const [length, weight] = system === "us" ? ["in", "oz"] : ["cm", "g"];
    expect(errors.spacing).toMatch(new RegExp(`Allowed is .+${NBSP}${length}\\.$`));
    expect(errors.catches?.[0]).toMatch(new RegExp(`Allowed is 0 to .+${NBSP}${weight}\\.$`));
    expect(errors.dial).toContain("Allowed is -1");
  });

  it.each([
    [
      "us",
      "ft",
      "Length: The length is above the highest value allowed. Allowed is 0.03281 to 16,400\u00a0ft.",
    ],
    [
      "us",
      "in",
      "Length: The length is above the highest value allowed. Allowed is 0.3938 to 196,800\u00a0in.",
    ],
    [
      "metric",
      "m",
      "Length: The length is above the highest value allowed. Allowed is 0.01 to 5\u202f000\u00a0m.",
    ],
  ] as const)(
    "that the engine refuses stands beside its field, in its unit (%s, %s)",
    async (system, unit, says) => {
      const error = {
        code: "out_of_range",
        name: "parts[0].length_m",
        value: 9e6,
        low: 0.01,
        high: 5000,
        message: "The length is above the highest value allowed.",
      };
      const model = { ...parts(system), engine: fakeEngine({ "area.shapes": () => ({ error }) }) };
      const editor = createGround(model).edit(null);
      await editor.open(undefined);
      const { measures } = editor.form.value as any;
      const [part] = measures.parts;
      const sizes = { length_m: { amount: "9000000", unit }, width_m: { amount: "4", unit } };
      editor.change({ name: "Front", measures: { ...measures, parts: [{ ...part, sizes }] } });
      await editor.save(undefined);
      expect(editor.errors.value[`parts.${part.key}.length_m`]).toBe(says);
    },
  );
});
