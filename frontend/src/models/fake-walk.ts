/** For tests: a shed and a ground to walk over, and the few steps every walk shares. */
import { fakeBook, fakeEngine, groups, says } from "./fake-book";
import { createWalk } from "./walk";
import type { WalkDraft } from "./walk-types";

export const LIKELY = { low: 4, mid: 5, high: 6 };

/** Answers shaped as the engine's; the figures are made up and only carried through. */
export function engine(over: Record<string, (args: any) => any> = {}) {
  return fakeEngine({
    "label.aim": () =>
      says({ target_kg_m2: 0.05, mass_kg: 10, bags: 0.5, n_kg_m2: 0.012, label_share: 1, over_label: false }),
    "label.rate": ({ net_kg, coverage_m2 }) => says({ rate_kg_m2: net_kg / coverage_m2 }),
    "spreading.start": () =>
      says({
        dial: 6,
        passes_advised: 2,
        share: 0.5,
        left_kg: LIKELY,
        chance_of_running_out: 0.04,
        basis: "nothing_known",
        advice: "walk",
      }),
    "spreading.next": () =>
      says({
        dial: 7.5,
        left_kg: { low: 0, mid: 0.4, high: 1 },
        chance_of_running_out: 0.05,
        bad_passes: [],
        basis: "same_product",
        advice: "walk",
      }),
    "spreading.split": ({ used_kg }) =>
      says({
        zones: [
          { id: "verge", area_m2: 120, used_kg: used_kg * 0.6, n_kg_m2: 0.01 },
          { id: "long", area_m2: 80, used_kg: used_kg * 0.4, n_kg_m2: 0.01 },
        ],
      }),
    "hopper.mass": ({ level_share }) => says({ mass_kg: level_share * 8, sd_kg: 0.5, capacity_kg: 8 }),
    ...over,
  });
}

export function shelf() {
  const store = fakeBook();
  store.put({
    t: "zone",
    id: "verge",
    groups: groups({ name: { name: "Verge" }, ground: { area_m2: 120 } }),
  });
  store.put({
    t: "zone",
    id: "long",
    groups: groups({ name: { name: "Long" }, ground: { area_m2: 80 }, site: { near_water: true } }),
  });
  store.put({
    t: "product",
    id: "slow",
    groups: groups({
      name: { name: "Slow 24-0-6", sort: "fertilizer" },
      label: { net_kg: 20, coverage_m2: 400 },
      analysis: { n_percent: 24, slow_n_share: 0.5 },
      caution: { signal_word: "caution", interval_days: 42 },
      granules: { bulk_density_kg_m3: 750, granules: "medium" },
    }),
  });
  const hopper = {
    top_length_m: 0.4,
    top_width_m: 0.3,
    bottom_length_m: 0.1,
    bottom_width_m: 0.1,
    height_m: 0.3,
  };
  store.put({
    t: "spreader",
    id: "rotary",
    groups: groups({
      name: { name: "Rotary", sort: "rotary" },
      dial: { lowest: 1, highest: 24, step: 0.5 },
      walking: { swath_m: 1.5, speed_m_s: 1.3 },
      hopper,
    }),
  });
  return store;
}

export function walkOver(store = shelf(), answers = engine()) {
  const parts = { store, engine: answers, now: () => "2026-05-14T18:05:00+02:00", memberId: () => "me" };
  return createWalk({ ...parts, system: () => "metric" });
}

export async function chosen(store = shelf(), answers = engine()) {
  const walk = walkOver(store, answers);
  await walk.open();
  walk.begin();
  await walk.change({ zone_ids: ["verge", "long"], product_id: "slow", spreader_id: "rotary" });
  return walk;
}

export async function inTheYard(store = shelf(), answers = engine()) {
  const walk = await chosen(store, answers);
  await walk.setOff();
  return walk;
}

export const left = (draft: WalkDraft | null | undefined, part: Partial<WalkDraft["left"]>) => {
  if (!draft) throw new Error("no walk on foot");
  return { left: { ...draft.left, ...part } };
};

export const kg = (amount: string) => ({ amount, unit: "kg" });

export async function weighed(walk: ReturnType<typeof walkOver>, amount: string) {
  await walk.go("left");
  await walk.change(left(walk.draft.value, { way: "scale", weight: kg(amount) }));
  return walk.record();
}

export const passBodies = (store: ReturnType<typeof shelf>) =>
  store.saved.flat().flatMap(({ body }) => ((body as any)?.kind === "pass" ? [body as any] : []));
