import { describe, expect, it } from "vitest";
import { fakeBook, fakeEngine, fakeRow, groups, refuses } from "../../../records/fake-book";
import { rectangle } from "./outline";
import { createOutlines } from "./outline-draft";

const SQUARE: [number, number][] = [
  [0, 0],
  [10, 0],
  [10, 10],
  [0, 10],
];

function zone(ground: object) {
  const store = fakeBook();
  const engine = fakeEngine({
    "area.outline": ({ points_m }) =>
      points_m[0]?.[0] === 99 ? refuses("Edges 1 and 3 cross.") : { area_m2: 96, holes_m: [] },
    "area.shapes": ({ parts }) => ({ area_m2: 100, outline_m: parts.length === 1 ? SQUARE : null }),
  });
  const row = fakeRow({ t: "zone", id: "z", groups: groups({ ground }) });
  store.put(row);
  const outlines = createOutlines({ store, engine, system: () => "metric", check: () => ({}) });
  return { store, engine, row, outlines, saved: () => store.row("zone", "z").value?.groups["ground"]?.value };
}

const PART = { shape: "rectangle", length_m: 10, width_m: 10 };
const TAPED = {
  area_m2: 104,
  area_sd_m2: 2,
  method: "shapes",
  measured: { call: "area.shapes", args: { parts: [PART] }, typed: { method: "shapes" } },
};

describe("drawing the outline of a zone in the book", () => {
  it("begins with the shape that was measured", async () => {
    const { outlines, row } = zone(TAPED);
    const editor = outlines.edit("z");
    await editor.open(row);
    expect(editor.form.value?.outline.points).toEqual(SQUARE);
  });

  it("begins empty where several shapes lie nobody knows where", async () => {
    const { outlines, row } = zone({
      ...TAPED,
      measured: { call: "area.shapes", args: { parts: [PART, PART] } },
    });
    const editor = outlines.edit("z");
    await editor.open(row);
    expect(editor.form.value?.outline.points).toEqual([]);
    expect(await editor.save(row)).toBeUndefined();
    expect(editor.errors.value["outline"]).toContain("Draw a shape");
  });

  it("leaves a taped area and all that was typed as they are", async () => {
    const { outlines, row, saved } = zone(TAPED);
    const editor = outlines.edit("z");
    await editor.open(row);
    await editor.save(row);
    const { outline, ...rest } = saved();
    expect(rest).toEqual(TAPED);
    expect(outline).toEqual({ points_m: SQUARE, holes_m: [], circles_m: [], north_deg: null, drawn: true });
  });

  it("mends the area of a walked zone with its outline, and keeps the walk's error", async () => {
    const outline = { points_m: SQUARE, holes_m: [], circles_m: [], north_deg: 0 };
    const { outlines, row, saved } = zone({ area_m2: 100, area_sd_m2: 9, method: "gps", outline });
    const editor = outlines.edit("z");
    await editor.open(row);
    expect(editor.form.value?.takesArea).toBe(true);
    await editor.save(row);
    expect(saved()).toMatchObject({ area_m2: 96, area_sd_m2: 9, method: "outline", outline });
    expect(saved().measured.call).toBe("area.outline");
  });

  it("keeps a half-done drawing through a reload, and forgets it once saved", async () => {
    const { outlines, row, store } = zone(TAPED);
    const editor = outlines.edit("z");
    await editor.open(row);
    editor.change({ outline: rectangle(7, 7) });
    const again = outlines.edit("z");
    await again.open(row);
    expect(again.resumed.value).toBe(true);
    expect(again.form.value?.outline).toEqual(rectangle(7, 7));
    await again.save(row);
    expect(store.kept.size).toBe(0);
  });

  it("saves nothing and says why when the edge crosses itself", async () => {
    const { outlines, row, store } = zone(TAPED);
    const editor = outlines.edit("z");
    await editor.open(row);
    editor.change({
      outline: {
        ...rectangle(7, 7),
        points: [
          [99, 0],
          [0, 1],
          [1, 1],
        ],
      },
    });
    expect(await editor.save(row)).toBeUndefined();
    expect(editor.errors.value["outline"]).toContain("cross");
    expect(store.saved).toEqual([]);
  });

  it("gives back what was thrown away", async () => {
    const { outlines, row } = zone(TAPED);
    const editor = outlines.edit("z");
    await editor.open(row);
    editor.change({ outline: rectangle(7, 7) });
    const back = await editor.discard(row);
    if (!back) return expect.fail("nothing was given back");
    await back();
    const again = outlines.edit("z");
    await again.open(row);
    expect(again.form.value?.outline).toEqual(rectangle(7, 7));
  });
});
