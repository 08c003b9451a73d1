import { effect } from "@preact/signals";
import { describe, expect, it } from "vitest";
import type { Table } from "../../../platform/engine/fake-engine";
import { realEngine } from "../../../platform/engine/real-engine";
import { fakeBook, fakeEngine, groups, refuses, settled, wholeBody } from "../../../records/fake-book";
import { type Clash, createClashes } from "./clashes";

const TODAY = "2026-05-14";

const spreading = (id: string, at: string, by: string | undefined, more: object = {}) => ({
  t: "entry",
  id,
  body: wholeBody({
    kind: "spread",
    occurred_at: at,
    ...(by ? { by } : {}),
    zone_ids: ["z"],
    product_id: "p",
    sort: "fertilizer",
    zones: [{ zone_id: "z", n_kg_m2: 0.004 }],
    ...more,
  }),
});
const mow = (id: string, at: string, by: string) => ({
  t: "entry",
  id,
  body: { kind: "mow", occurred_at: at, by, zone_ids: ["z"] },
});

const CLASH: Clash = {
  key: "interval:a:b",
  kind: "interval",
  entry_ids: ["a", "b"],
  zone_ids: ["z"],
  date: "2026-05-13",
  product_id: "p",
  days_between: 2,
  interval_days: 42,
  assumed: false,
  n_year_kg_m2: null,
  amount_kg_m2: null,
  ceiling_kg_m2: null,
  window_days: null,
  source: "definition",
};

function open(answer: Table["record.clashes"]) {
  const store = fakeBook();
  const engine = fakeEngine({
    "record.clashes": answer,
    "limits.ceilings": (args) => realEngine("limits.ceilings", args),
  });
  store.put({
    t: "product",
    id: "p",
    groups: groups({ name: { name: "Slow feed" }, caution: { interval_days: 42 } }),
  });
  const model = createClashes({ store, engine, day: () => TODAY, memberId: () => "me" });
  const stop = effect(() => void model.open.value);
  return { store, engine, model, stop };
}

describe("S4 what two people did to the same grass", () => {
  it("asks of walks of this and the last year and of mows of two weeks, and of nothing struck out", async () => {
    const { store, engine } = open({ clashes: [] });
    store.put(spreading("a", "2026-05-11T18:00:00+02:00", "rowan"));
    store.put(spreading("last", "2025-01-02T18:00:00+02:00", "rowan"));
    store.put(spreading("older", "2024-12-30T18:00:00+02:00", "rowan"));
    store.put(mow("m", "2026-05-01T18:00:00+02:00", "rowan"));
    store.put(mow("old", "2026-04-20T18:00:00+02:00", "rowan"));
    store.put({
      ...mow("void", "2026-05-12T18:00:00+02:00", "rowan"),
      groups: groups({ void: { void: true } }),
    });
    await settled();
    const args = engine.askedOf("record.clashes").at(-1);
    expect(args?.entries.map(({ id }) => id).sort()).toEqual(["a", "last", "m"]);
    expect(args?.products).toEqual([{ id: "p", interval_days: 42 }]);
    expect(args?.today).toBe(TODAY);
  });

  it("takes an entry that nobody has signed yet for this phone's own", async () => {
    const { store, engine } = open({ clashes: [] });
    store.put(spreading("a", "2026-05-11T18:00:00+02:00", undefined));
    store.put({ ...spreading("b", "2026-05-12T18:00:00+02:00", undefined), by: "rowan" });
    await settled();
    const asked = engine.askedOf("record.clashes").at(-1);
    expect(asked?.entries.map(({ id, by }) => [id, by])).toEqual([
      ["a", "me"],
      ["b", "rowan"],
    ]);
  });

  it("gives the lowest that is published where the place is not known, and no year where no grass is entered", async () => {
    const { store, engine } = open({ clashes: [] });
    store.put({ t: "zone", id: "z", groups: groups({ grass: { grass: "tall_fescue" } }) });
    store.put({ t: "zone", id: "bare", groups: groups({}) });
    await settled();
    const ceilings = engine.askedOf("record.clashes").at(-1)?.ceilings;
    const [z, bare] = ["z", "bare"].map((id) => ceilings?.find((row) => row.zone_id === id));
    // 0.5 lb quick and 0.9 lb in all per 1,000 ft2, the lowest read (SUFFOLK-CO, MD-RIVERHILL).
    expect(bare).toMatchObject({ n_quick_once_kg_m2: 0.002441214, n_once_kg_m2: 0.004394185 });
    expect(bare?.n_year_kg_m2).toBeUndefined();
    expect(z?.n_year_kg_m2).toBeGreaterThan(0);
  });

  it("F34 stands until any member's settlement names it, and stands again when that is taken back", async () => {
    const { store, model } = open({ clashes: [CLASH] });
    await settled();
    expect(model.open.value.map(({ key }) => key)).toEqual([CLASH.key]);
    const made = await model.settle(CLASH, " we talked ");
    expect(store.saved.at(-1)?.[0]?.set?.["settled"]).toEqual({
      clash: CLASH.key,
      kind: "interval",
      entry_ids: ["a", "b"],
      note: "we talked",
    });
    expect(model.open.value).toEqual([]);
    store.sent.add(made.op);
    await made.back();
    expect(model.open.value).toHaveLength(1);
    store.put({
      t: "settlement",
      id: "other",
      by: "rowan",
      groups: groups({ settled: { clash: CLASH.key } }),
    });
    expect(model.open.value).toEqual([]);
  });

  it("F34 is not settled by the settling of another clash", async () => {
    const { store, model } = open({ clashes: [CLASH] });
    await settled();
    store.put({ t: "settlement", id: "s", groups: groups({ settled: { clash: "interval:a:c" } }) });
    expect(model.open.value).toHaveLength(1);
  });

  it("says in words what keeps clashes from being looked for", async () => {
    const { model } = open(refuses("A moment is none."));
    await settled();
    expect(model.problem.value).toBe("A moment is none.");
    expect(model.open.value).toEqual([]);
  });

  it("F34 is found by the engine in the merged book, and ends by itself when one entry is struck out", async () => {
    const { store, model } = open((args) => realEngine("record.clashes", args));
    store.put(spreading("a", "2026-05-11T18:00:00+02:00", "rowan"));
    store.put(spreading("b", "2026-05-13T18:00:00+02:00", undefined));
    await settled();
    expect(model.open.value).toMatchObject([
      { kind: "interval", entry_ids: ["a", "b"], days_between: 2, interval_days: 42, assumed: false },
    ]);
    expect(model.workingOf(model.open.value[0] as Clash).length).toBeGreaterThan(0);
    store.put({
      ...spreading("b", "2026-05-13T18:00:00+02:00", undefined),
      groups: groups({ void: { void: true } }),
    });
    await settled();
    expect(model.open.value).toEqual([]);
  });
});
