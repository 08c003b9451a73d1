/** Zones walked with the phone, traced over a plan or drawn corner by corner: what is asked, kept and saved. */
import { effect } from "@preact/signals";
import { describe, expect, it } from "vitest";
import type { Store } from "../../../platform/store/types";
import { fakeBook, fakeEngine, fakeRow, groups, settled } from "../../../records/fake-book";
import { closed, NO_WALK, walking, withFix } from "./gps-trace";
import { createGround, type ZoneEditor } from "./ground";
import { rectangle, withCircle } from "./outline";
import { pictureKey } from "./plan-picture";
import { noTrace, type TraceForm } from "./trace";
import { blankForm, formOf, type Measures } from "./zone-form";
import { measuredBy } from "./zone-measured";

const SQUARE: [number, number][] = [
  [0, 0],
  [10, 0],
  [10, 10],
  [0, 10],
];
const PICTURE = { bytes: new ArrayBuffer(8), type: "image/jpeg", width: 640, height: 480 };

function ground() {
  const store = fakeBook();
  const walked = { area_m2: 100, sd_m2: 9, points_m: SQUARE, left_out: [] };
  const engine = fakeEngine({
    "record.totals": {},
    "area.gps": walked,
    "area.trace": { area_m2: 100, sd_m2: 4, points_m: SQUARE, holes_m: [], north_deg: 0 },
    "area.outline": ({ circles_m }) => ({ area_m2: 96, holes_m: circles_m ? [SQUARE] : [] }),
    "area.shapes": { area_m2: 100, sd_m2: 2, outline_m: SQUARE },
  });
  const model = createGround({
    store,
    engine,
    day: () => "2026-05-14",
    system: () => "metric",
    check: () => ({}),
  });
  return { store, engine, model };
}

function walkedRing(): Measures["gps"] {
  let form = walking(NO_WALK);
  for (const [lat, lon] of [
    [41, -93],
    [41.001, -93],
    [41.001, -92.999],
  ] as const)
    form = withFix(form, { lat, lon, accuracy_m: 4 });
  return closed(form);
}

function tracedForm(): TraceForm {
  return {
    ...noTrace("m"),
    picture: "pic",
    width: 640,
    known: [
      [0, 0],
      [100, 0],
    ],
    distance: { amount: "12", unit: "m" },
    rings: [
      [
        [10, 10],
        [90, 10],
        [90, 70],
      ],
    ],
  };
}

async function opened(editor: ZoneEditor, measures: Partial<Measures>): Promise<void> {
  await editor.open(undefined);
  editor.change({ name: "Verge", measures: { ...blankForm("metric").measures, ...measures } });
}

const saved = (store: Store, id: string | undefined) =>
  store.row("zone", id ?? "").value?.groups["ground"]?.value;

describe("a zone walked with the phone", () => {
  it("is saved with its fixes once, its error and its outline with north up", async () => {
    const { store, model } = ground();
    const editor = model.edit(null);
    await opened(editor, { method: "gps", gps: walkedRing() });
    const found = saved(store, (await editor.save(undefined))?.id);
    expect(found).toMatchObject({ area_m2: 100, area_sd_m2: 9, method: "gps" });
    expect(found.outline).toEqual({ points_m: SQUARE, holes_m: [], circles_m: [], north_deg: 0 });
    expect(found.measured.args.fixes).toHaveLength(3);
    expect(JSON.stringify(found.measured.typed)).not.toContain("lat");
  });

  it("asks for no area before the ring is closed", () => {
    const measures = { ...blankForm("metric").measures, method: "gps" as const, gps: walking(NO_WALK) };
    const { call, errors } = measuredBy(measures);
    expect(call).toBeNull();
    expect(errors["gps"]).toContain("Close the loop");
  });

  it("resumes where a killed phone left it", async () => {
    const { store, model } = ground();
    const first = model.edit(null);
    await opened(first, { method: "gps", gps: { ...walkedRing(), state: "walking" } });
    expect(store.kept.size).toBe(1);
    const again = model.edit(null);
    await again.open(undefined);
    expect(again.form.value?.measures.gps).toMatchObject({ state: "walking", marks: [0] });
    expect(again.form.value?.measures.gps.fixes).toHaveLength(3);
  });

  it("is opened again with its fixes from the record", () => {
    const args = { fixes: walkedRing().fixes };
    const value = { area_m2: 100, method: "gps", measured: { args, typed: { method: "gps" } } };
    const form = formOf(fakeRow({ t: "zone", id: "z", groups: groups({ ground: value }) }), "metric");
    expect(form.measures.gps).toEqual({ fixes: args.fixes, marks: [0], state: "closed" });
  });
});

describe("a zone traced over a plan", () => {
  it("asks with places on the picture and the known distance in metres (foot: 0.3048 m exactly)", () => {
    const trace = { ...tracedForm(), distance: { amount: "50", unit: "ft" }, north: 15 };
    const { call } = measuredBy({ ...blankForm("us").measures, method: "trace", trace });
    expect(call).toEqual({
      name: "area.trace",
      args: {
        points_px: trace.rings[0],
        known: [{ x1: 0, y1: 0, x2: 100, y2: 0, distance_m: 50 * 0.3048 }],
        north_px_deg: 15,
        pointing_px: 2,
      },
    });
  });

  it.each([
    [{ picture: null }, "trace.picture"],
    [{ known: [[0, 0]] as TraceForm["known"] }, "trace.known"],
    [{ rings: [[[0, 0]]] as TraceForm["rings"] }, "trace.corners"],
    [{ distance: { amount: "", unit: "m" } }, "trace.distance"],
  ])("says what is still missing: %o", (part, field) => {
    const trace = { ...tracedForm(), ...part };
    const { call, errors } = measuredBy({ ...blankForm("metric").measures, method: "trace", trace });
    expect(call).toBeNull();
    expect(Object.keys(errors)).toEqual([field]);
  });

  it("says that the area shown is that of fewer corners, and measures what is traced now all the same", async () => {
    // The engine is slow to answer the screen: the area is as many square metres as there are corners.
    const waiting: (() => void)[] = [];
    const engine = fakeEngine({
      "area.trace": async ({ points_px }) => {
        await new Promise<void>((answered) => waiting.push(answered));
        return { area_m2: points_px.length, points_m: points_px.map(([x, y]) => [x, y]) };
      },
    });
    const parts = { day: () => "2026-05-14", system: () => "metric" as const, check: () => ({}) };
    const editor = createGround({ store: fakeBook(), engine, ...parts }).edit(null);
    const trace = tracedForm();
    await opened(editor, { method: "trace", trace });
    const stop = effect(() => void [editor.answer.value, editor.stale.value]);
    waiting[0]?.();
    await settled();
    expect([editor.answer.value?.value?.area_m2, editor.stale.value]).toEqual([3, false]);
    const more: TraceForm = { ...trace, rings: [[...(trace.rings[0] ?? []), [10, 70]]] };
    editor.change({ measures: { ...blankForm("metric").measures, method: "trace", trace: more } });
    expect([editor.answer.value?.value?.area_m2, editor.stale.value]).toEqual([3, true]);
    const now = editor.measure();
    waiting[2]?.();
    expect((await now)?.area_m2).toBe(4);
    waiting[1]?.();
    await settled();
    expect([editor.answer.value?.value?.area_m2, editor.stale.value]).toEqual([4, false]);
    stop();
  });

  it("never puts the picture into the book", async () => {
    const { store, model } = ground();
    const editor = model.edit(null);
    await opened(editor, { method: "trace" });
    await editor.layPicture(tracedForm(), PICTURE);
    const id = (await editor.save(undefined))?.id;
    expect(saved(store, id)).toMatchObject({ method: "trace", outline: { points_m: SQUARE, north_deg: 0 } });
    expect(JSON.stringify(store.saved)).not.toContain("bytes");
    expect(store.kept.get(pictureKey("pic"))).toBeDefined();
  });

  it("brings the earlier picture back when another one is undone", async () => {
    const { store, model } = ground();
    const editor = model.edit(null);
    await opened(editor, { method: "trace" });
    await editor.layPicture(tracedForm(), PICTURE);
    const back = await editor.layPicture({ ...noTrace("m"), picture: "other" }, PICTURE);
    expect([...store.kept.keys()]).not.toContain(pictureKey("pic"));
    await back();
    expect(editor.form.value?.measures.trace).toEqual(tracedForm());
    expect(store.kept.get(pictureKey("pic"))).toEqual(PICTURE);
    expect(store.kept.has(pictureKey("other"))).toBe(false);
  });

  it("throws the picture away with the form, and brings it back with it", async () => {
    const { store, model } = ground();
    const editor = model.edit(null);
    await opened(editor, { method: "trace" });
    await editor.layPicture(tracedForm(), PICTURE);
    const back = await editor.discard(undefined);
    expect(store.kept.size).toBe(0);
    if (!back) return expect.fail("nothing was given back");
    await back();
    expect(store.kept.get(pictureKey("pic"))).toEqual(PICTURE);
  });
});

describe("an outline", () => {
  it("drawn by hand is saved with the error of what it came from and its obstacles", async () => {
    const { store, model } = ground();
    const editor = model.edit(null);
    const outline = { ...withCircle(rectangle(10, 10), [5, 5], 1), sd_m2: 9, north: 0 };
    await opened(editor, { method: "outline", outline });
    const found = saved(store, (await editor.save(undefined))?.id);
    expect(found).toMatchObject({ area_m2: 96, area_sd_m2: 9, method: "outline" });
    expect(found.outline).toEqual({
      points_m: outline.points,
      holes_m: [],
      circles_m: outline.circles,
      north_deg: 0,
    });
  });

  it("comes with a zone measured as one shape, so that its walk can be planned", async () => {
    const { store, model } = ground();
    const editor = model.edit(null);
    const length = { amount: "10", unit: "m" };
    const parts = [
      { key: "1", shape: "rectangle" as const, add: true, sizes: { length_m: length, width_m: length } },
    ];
    await opened(editor, { parts });
    expect(saved(store, (await editor.save(undefined))?.id).outline.points_m).toEqual(SQUARE);
  });

  it("drawn by hand stays where the lengths are taped anew", async () => {
    const { store, model } = ground();
    const outline = {
      points_m: SQUARE.slice(0, 3),
      holes_m: [],
      circles_m: [],
      north_deg: null,
      drawn: true,
    };
    const value = { area_m2: 99, method: "typed", measured: { typed: { method: "typed" } }, outline };
    const row = fakeRow({ t: "zone", id: "z", groups: groups({ name: { name: "Verge" }, ground: value }) });
    store.put(row);
    const editor = model.edit("z");
    await editor.open(row);
    const length = { amount: "10", unit: "m" };
    const parts = [
      { key: "1", shape: "rectangle" as const, add: true, sizes: { length_m: length, width_m: length } },
    ];
    editor.change({ measures: { ...blankForm("metric").measures, parts } });
    await editor.save(row);
    expect(saved(store, "z")).toMatchObject({ area_m2: 100, method: "shapes", outline });
  });

  it("drawn earlier stays where the area is then typed in", async () => {
    const { store, model } = ground();
    const outline = { points_m: SQUARE, holes_m: [], circles_m: [], north_deg: null };
    const row = fakeRow({
      t: "zone",
      id: "z",
      groups: groups({
        name: { name: "Verge" },
        ground: { area_m2: 100, area_sd_m2: 9, method: "gps", outline },
      }),
    });
    store.put(row);
    const editor = model.edit("z");
    await editor.open(row);
    const form = editor.form.value;
    if (!form) return expect.fail("the form did not open");
    const area = { amount: "104", unit: "m2" };
    editor.change({ measures: { ...form.measures, method: "typed", area } });
    await editor.save(row);
    const found = saved(store, "z");
    expect(found.outline).toEqual(outline);
    expect(found.area_m2).toBe(104);
    expect(found.area_sd_m2).toBeUndefined();
  });
});

it("writes the heading of the strips as a group of its own", async () => {
  const { store, model } = ground();
  const editor = model.edit(null);
  await opened(editor, { method: "outline", outline: rectangle(10, 10) });
  editor.change({ heading: "45" });
  const id = (await editor.save(undefined))?.id;
  expect(store.row("zone", id ?? "").value?.groups["strips"]?.value).toEqual({ heading_deg: 45 });
});
