import { effect } from "@preact/signals";
import { describe, expect, it } from "vitest";
import { fakeBook, fakeEngine, fakeRow, groups, refuses, settled } from "../../../records/fake-book";
import { createGround } from "./ground";
import { blankForm, formOf, newPart, type ZoneForm } from "./zone-form";
import { measuredBy } from "./zone-measured";

const feet = (amount: string) => ({ amount, unit: "ft" });

function rectangle(length: string, width: string): ZoneForm["measures"] {
  const blank = blankForm("us").measures;
  return {
    ...blank,
    parts: [{ ...newPart("1", "us"), sizes: { length_m: feet(length), width_m: feet(width) } }],
  };
}

function ground(check = () => ({})) {
  const store = fakeBook();
  const engine = fakeEngine({
    "record.totals": {},
    "area.shapes": ({ parts }) =>
      Number(parts[0]?.length_m) > 1000
        ? refuses("Length is 1219.2 m; up to 1000 is allowed.")
        : { area_m2: 37.16, sd_m2: 0.5 },
  });
  return {
    store,
    engine,
    model: createGround({ store, engine, day: () => "2026-05-14", system: () => "us", check }),
  };
}

describe("measuring a zone", () => {
  it("turns typed feet into the engine's metres (international foot, 0.3048 m exactly)", () => {
    const { call } = measuredBy(rectangle("40", "10 1/2"));
    expect(call?.name).toBe("area.shapes");
    expect(call?.args).toEqual({
      parts: [{ shape: "rectangle", add: true, length_m: 40 * 0.3048, width_m: 10.5 * 0.3048 }],
    });
  });

  it("names the field that is wrong and what is allowed, and asks the engine nothing", () => {
    const { call, errors } = measuredBy(rectangle("forty", "0"));
    expect(call).toBeNull();
    expect(errors["parts.1.length_m"]).toContain("not a number");
    expect(errors["parts.1.width_m"]).toBe("Width must be more than 0.");
  });

  it("allows an offset of 0 at the ends but never one below", () => {
    const measures = { ...blankForm("metric").measures, method: "offsets" as const };
    const lines = { spacing: { amount: "3", unit: "m" }, offsets: { amounts: ["0", "5", "-1"], unit: "m" } };
    expect(measuredBy({ ...measures, ...lines }).errors).toEqual({
      "offsets.2": "Width 3 cannot be below 0; 0 is allowed.",
    });
  });

  it("saves area, error, method, the call and what was typed as one group", async () => {
    const { store, model } = ground();
    const editor = model.edit(null);
    await editor.open(undefined);
    editor.change({ name: " Street verge ", measures: rectangle("40", "10") });
    const id = (await editor.save(undefined))?.id;
    const set = store.row("zone", id ?? "").value?.groups;
    expect(set?.["name"]?.value).toEqual({ name: "Street verge" });
    expect(set?.["ground"]?.value).toMatchObject({
      area_m2: 37.16,
      area_sd_m2: 0.5,
      method: "shapes",
      measured: {
        call: "area.shapes",
        typed: { method: "shapes", parts: [{ sizes: { length_m: feet("40") } }] },
      },
    });
  });

  it("writes only the groups a person changed and keeps fields it does not know", async () => {
    const { store, model } = ground();
    const row = fakeRow({
      t: "zone",
      id: "z",
      groups: groups({
        name: { name: "Verge", later: 1 },
        ground: { area_m2: 37, method: "shapes", measured: { typed: rectangleTyped() } },
        show: { show_patch: false },
      }),
    });
    store.put(row);
    const editor = model.edit("z");
    await editor.open(row);
    editor.change({ name: "Street verge" });
    await editor.save(row);
    expect(store.saved).toEqual([
      [{ t: "zone", id: "z", set: { name: { name: "Street verge", later: 1 } } }],
    ]);
  });

  it("clears a fact that was wiped from its field", async () => {
    const { store, model } = ground();
    const row = fakeRow({
      t: "zone",
      id: "z",
      groups: groups({
        name: { name: "Verge" },
        ground: { area_m2: 37, method: "shapes", measured: { typed: rectangleTyped() } },
        cut: { cut_height_mm: 76.2, cut_height_typed: { amount: "3", unit: "height_in" }, mow_every_days: 5 },
      }),
    });
    store.put(row);
    const editor = model.edit("z");
    await editor.open(row);
    editor.change({ cut: { amount: "", unit: "height_in" } });
    await editor.save(row);
    expect(store.saved[0]?.[0]?.set).toEqual({ cut: { mow_every_days: 5 } });
  });

  it("keeps a half-filled form through a reload and forgets it once saved", async () => {
    const { store, model } = ground();
    const first = model.edit(null);
    await first.open(undefined);
    first.change({ name: "Long", measures: rectangle("40", "") });
    const again = model.edit(null);
    await again.open(undefined);
    expect(again.resumed.value).toBe(true);
    expect(again.form.value?.name).toBe("Long");
    again.change({ measures: rectangle("40", "10") });
    await again.save(undefined);
    expect(store.kept.size).toBe(0);
  });

  it("saves nothing and says why when the engine refuses", async () => {
    const { store, model } = ground();
    const editor = model.edit(null);
    await editor.open(undefined);
    editor.change({ name: "Far", measures: rectangle("4000", "10") });
    expect(await editor.save(undefined)).toBeUndefined();
    expect(editor.errors.value["ground"]).toContain("up to 1000 is allowed");
    expect(store.saved).toEqual([]);
  });

  it("gives back what was thrown away, so that it can be brought back", async () => {
    const { store, model } = ground();
    const editor = model.edit(null);
    await editor.open(undefined);
    editor.change({ name: "Long" });
    const back = await editor.discard(undefined);
    expect(store.kept.size).toBe(0);
    if (!back) return expect.fail("nothing was given back");
    await back();
    const again = model.edit(null);
    await again.open(undefined);
    expect(again.form.value?.name).toBe("Long");
  });

  it("shows the live area while somebody looks", async () => {
    const { model } = ground();
    const editor = model.edit(null);
    const stop = effect(() => void editor.answer.value);
    await editor.open(undefined);
    editor.change({ measures: rectangle("40", "10") });
    await settled();
    expect(editor.answer.value?.value?.area_m2).toBe(37.16);
    stop();
  });

  it("takes a zone out and brings it back", async () => {
    const { store, model } = ground();
    store.put({ t: "zone", id: "z", groups: groups({ name: { name: "Verge" } }) });
    const taken = await model.takeOut("z");
    expect(store.rows("zone").value).toEqual([]);
    store.sent.add(taken.op);
    await taken.back();
    expect(store.rows("zone").value.map((row) => row.id)).toEqual(["z"]);
  });
});

describe("opening a zone written elsewhere", () => {
  it("shows what was typed, as typed", () => {
    const row = fakeRow({
      t: "zone",
      id: "z",
      groups: groups({ ground: { area_m2: 37, method: "shapes", measured: { typed: rectangleTyped() } } }),
    });
    expect(formOf(row, "metric").measures.parts[0]?.sizes["length_m"]).toEqual(feet("40"));
  });

  it("rebuilds the measurements from the engine's arguments where nothing typed is kept", () => {
    const args = { parts: [{ shape: "triangle", add: false, a_m: 3, b_m: 4, c_m: 5 }] };
    const row = fakeRow({
      t: "zone",
      id: "z",
      groups: groups({ ground: { area_m2: 6, method: "shapes", measured: { args } } }),
    });
    expect(measuredBy(formOf(row, "us").measures).call?.args).toEqual(args);
  });
});

it("rebuilds from the arguments when what was typed is in a shape it cannot read", () => {
  const args = { parts: [{ shape: "circle", add: true, radius_m: 3 }] };
  const typed = { method: "shapes", parts: [{ shape: "blob", sizes: {} }] };
  const ground = { area_m2: 28, method: "shapes", measured: { args, typed } };
  const row = fakeRow({ t: "zone", id: "z", groups: groups({ ground }) });
  expect(measuredBy(formOf(row, "us").measures).call?.args).toEqual(args);
});

function rectangleTyped(): object {
  return { method: "shapes", parts: rectangle("40", "10").parts };
}
