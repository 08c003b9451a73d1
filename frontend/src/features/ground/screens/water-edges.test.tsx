/** Which edges lie at the water (A15): tapped on the drawing or ticked by name, and kept with the outline. */
import { cleanup, fireEvent, render, screen } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import { realEngine } from "../../../platform/engine/real-engine";
import { fakeBook, fakeEngine, fakeRow, groups } from "../../../records/fake-book";
import { createGround } from "../model/ground";

vi.mock("../../../platform/session/session", async () => {
  const { signal } = await import("@preact/signals");
  return { units: signal("metric") };
});
const { WaterEdges } = await import("./water-edges");

afterEach(cleanup);

const CORNERS = [
  [0, 0],
  [20, 0],
  [20, 12],
  [0, 12],
];
const OUTLINED = {
  area_m2: 240,
  method: "outline",
  outline: { points_m: CORNERS, holes_m: [], circles_m: [], north_deg: null },
};

async function open(ground: object = OUTLINED) {
  const store = fakeBook();
  const engine = fakeEngine({
    "record.totals": {},
    "area.outline": (args) => realEngine("area.outline", args),
    "area.sides": (args) => realEngine("area.sides", args),
  });
  const row = fakeRow({
    t: "zone",
    id: "z",
    groups: groups({ name: { name: "Bank" }, ground, site: { near_water: true } }),
  });
  store.put(row);
  const system = () => "metric" as const;
  const model = createGround({ store, engine, day: () => "2026-05-14", system, check: () => ({}) });
  const editor = model.edit("z");
  await editor.open(row);
  const Shown = () => {
    const form = editor.form.value;
    return form ? <WaterEdges editor={editor} form={form} /> : null;
  };
  render(<Shown />);
  const saved = () => store.row("zone", "z").value?.groups["ground"]?.value;
  return { editor, row, saved };
}

const plain = (text: string | null | undefined) => text?.replaceAll("\u00a0", " ");
const box = async (name: string) =>
  (await screen.findByRole("checkbox", { name: (said) => plain(said) === name })) as HTMLInputElement;

describe("the edges at the water", () => {
  it("stand each by name, with its length, for keyboard and voice", async () => {
    await open();
    await box("Edge 3, 20 m, at the water");
    const names = screen.getAllByRole("checkbox").map((one) => plain(one.closest("label")?.textContent));
    expect(names).toEqual([
      "Edge 1, 20 m, at the water",
      "Edge 2, 12 m, at the water",
      "Edge 3, 20 m, at the water",
      "Edge 4, 12 m, at the water",
    ]);
  });

  it("are saved beside the outline, and stand when the form is opened again", async () => {
    const { editor, row, saved } = await open();
    fireEvent.click(await box("Edge 3, 20 m, at the water"));
    expect((await box("Edge 3, 20 m, at the water")).checked).toBe(true);
    expect(await editor.save(row)).toBeDefined();
    expect(saved()).toMatchObject({ water_edges: [2], outline: { points_m: CORNERS } });
    cleanup();
    await open(saved());
    expect((await box("Edge 3, 20 m, at the water")).checked).toBe(true);
    expect((await box("Edge 1, 20 m, at the water")).checked).toBe(false);
  });

  it("are tapped on the drawing too, and tapped again to take them back", async () => {
    const { editor } = await open();
    await box("Edge 1, 20 m, at the water");
    const tap = () =>
      fireEvent.pointerUp(document.querySelector('[data-edge="2"] .water-edges__reach') as Element);
    tap();
    expect(editor.form.value?.measures.outline.water).toEqual({ corners: 4, edges: [1] });
    expect((await box("Edge 2, 12 m, at the water")).checked).toBe(true);
    tap();
    expect(editor.form.value?.measures.outline.water).toEqual({ corners: 4, edges: [] });
  });

  it("leave no field behind once none is marked", async () => {
    const { editor, row, saved } = await open({ ...OUTLINED, water_edges: [1] });
    fireEvent.click(await box("Edge 2, 12 m, at the water"));
    expect(await editor.save(row)).toBeDefined();
    expect(saved()).not.toHaveProperty("water_edges");
  });

  it("are kept where only a name is changed, and not asked where there is no outline", async () => {
    const { editor, row, saved } = await open({ ...OUTLINED, water_edges: [1] });
    editor.change({ name: "Shore" });
    expect(await editor.save(row)).toBeDefined();
    expect(saved()).toMatchObject({ water_edges: [1] });
    cleanup();
    await open({ area_m2: 240, method: "typed" });
    expect(screen.queryByRole("checkbox")).toBeNull();
  });
});
