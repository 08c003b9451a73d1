import { describe, expect, it } from "vitest";
import { realEngine } from "../../../../platform/engine/real-engine";
import { fakeBook, groups } from "../../../../records/fake-book";
import { createMoving } from "./moving";
import { createSheet } from "./sheet";

const ZONE = "018f0000-0000-7000-8000-00000000000a";
const PRODUCT = "018f0000-0000-7000-8000-00000000000b";
const PLAN = "018f0000-0000-7000-8000-00000000000c";
const [FEED, NEXT] = ["018f0000-0000-7000-8000-0000000000f1", "018f0000-0000-7000-8000-0000000000f2"];
const HOME = "018f0000-0000-7000-8000-0000000000aa";
const DAY = "2026-04-01";
const MONTHS = [-4, -2, 4, 10, 16, 21, 24, 23, 18, 11, 5, -1];
const engine = { call: async (...asked: Parameters<typeof realEngine>) => realEngine(...asked) };

function step(id: string, from_on: string, to_on: string) {
  return {
    t: "step",
    id,
    groups: groups({
      job: { plan_id: PLAN, job: "feed" },
      ground: { zone_ids: [ZONE] },
      window: { from_on, to_on },
      product: { product_id: PRODUCT, rate_kg_m2: 0.01 },
      lock: { locked: false },
      state: { state: "planned" },
    }),
  };
}

function book(household: Record<string, object> = { climate: { monthly_mean_c: MONTHS } }) {
  const store = fakeBook();
  store.put({ t: "household", id: HOME, groups: groups(household) });
  store.put({
    t: "zone",
    id: ZONE,
    groups: groups({
      name: { name: "Front" },
      ground: { area_m2: 100, method: "typed" },
      grass: { grass: "tall_fescue" },
    }),
  });
  store.put({
    t: "product",
    id: PRODUCT,
    groups: groups({
      name: { name: "Steady", sort: "fertilizer" },
      label: { net_kg: 20, coverage_m2: 400 },
      analysis: { n_percent: 20, slow_n_share: 0.5 },
      caution: { interval_days: 42 },
    }),
  });
  store.put(step(FEED, "2026-05-04", "2026-05-10"));
  store.put(step(NEXT, "2026-06-29", "2026-07-05"));
  const sheet = createSheet({
    store,
    engine,
    day: () => DAY,
    me: () => "018f0000-0000-7000-8000-0000000000bb",
    household: () => store.row("household", HOME).value,
    totals: () => ({ zones: {}, products: {} }) as never,
  });
  return { store, sheet, moving: createMoving({ store, engine, sheet }) };
}

/** The next answer of what is followed. */
async function told<V>(of: { subscribe: (tell: (value: V | undefined) => void) => () => void }): Promise<V> {
  return new Promise((done) => {
    let stop: (() => void) | undefined;
    stop = of.subscribe((value) => {
      if (value === undefined) return;
      queueMicrotask(() => stop?.());
      done(value);
    });
  });
}

const REACH = { earlier_weeks: 5, later_weeks: 30 };
const window = (store: ReturnType<typeof fakeBook>) => store.row("step", FEED).value?.groups["window"]?.value;

describe("the sheet of the year", () => {
  it("draws the book's steps in their band, with the need of its grass", async () => {
    const { sheet } = book();
    const { value } = await told(sheet.answer);
    const [band] = value?.value.bands ?? [];
    expect(band?.flags.map((flag) => flag.step)).toEqual([FEED, NEXT]);
    expect(band?.need_n_kg_m2?.some((one) => one > 0)).toBe(true);
    expect(value?.climateMissing).toBe(false);
    expect(sheet.year.value).toBe("2026-01-01");
  });

  it("draws the steps where no climate is known, and says so", async () => {
    const { sheet } = book({});
    const { value } = await told(sheet.answer);
    expect(value?.climateMissing).toBe(true);
    expect(value?.value.bands.map(({ flags }) => flags.length)).toEqual([2]);
    expect(value?.moving.rules.length).toBeGreaterThan(5);
  });
});

describe("a step that is moved", () => {
  it("is written with its lock where no rule speaks against it, and goes back whole", async () => {
    const { store, sheet, moving } = book();
    await told(sheet.answer);
    moving.pick(FEED, REACH, 1);
    expect(store.saved).toHaveLength(0);
    const { kept } = await moving.take();
    expect(window(store)).toEqual({ from_on: "2026-05-11", to_on: "2026-05-17" });
    expect(store.row("step", FEED).value?.groups["lock"]?.value).toEqual({ locked: true });
    expect(moving.picked.value).toBeUndefined();
    await kept?.back();
    expect(window(store)).toEqual({ from_on: "2026-05-04", to_on: "2026-05-10" });
  });

  it("is not written against the label, but on purpose", async () => {
    const { store, sheet, moving } = book();
    await told(sheet.answer);
    moving.pick(FEED, REACH, 4);
    expect(await moving.take()).toEqual({});
    expect(moving.refused.value).toBe(true);
    expect(store.saved).toHaveLength(0);
    const said = await told(moving.said);
    expect(said.value?.breaches.map(({ kind }) => kind)).toContain("label_interval");
    expect((await moving.take(true)).kept).toBeDefined();
    expect(window(store)).toEqual({ from_on: "2026-06-01", to_on: "2026-06-07" });
  });

  it("goes no farther than the sheet reaches, and nowhere when it is left", async () => {
    const { store, sheet, moving } = book();
    await told(sheet.answer);
    moving.pick(FEED, REACH);
    moving.by(-9);
    expect(moving.picked.value?.weeks).toBe(-5);
    moving.leave();
    expect(await moving.take()).toEqual({});
    expect(store.saved).toHaveLength(0);
  });

  it("takes back a move that was sent already by saying the old days again", async () => {
    const { store, sheet, moving } = book();
    await told(sheet.answer);
    moving.pick(FEED, REACH, 1);
    const { kept } = await moving.take();
    if (kept) store.sent.add(kept.op);
    await kept?.back();
    expect(window(store)).toEqual({ from_on: "2026-05-04", to_on: "2026-05-10" });
    expect(store.row("step", FEED).value?.groups["lock"]?.value).toEqual({ locked: false });
  });
});
