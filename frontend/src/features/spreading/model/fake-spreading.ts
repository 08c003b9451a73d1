/** For tests: a shed and a ground to walk over, and the few steps every job shares. */
import { fakeBook, fakeEngine, groups, refuses, says } from "../../../records/fake-book";
import { createSpreading } from "./spreading";
import type { SpreadDraft } from "./types";

export const LIKELY = { low: 4, mid: 5, high: 6 };

/** Zones without outline as the engine tours them: one row each, or the strips counted; product goes by the ground. */
export function tour({ zones, load_kg, rate_kg_m2, covered_m2 = 0 }: any) {
  const rows: any[] = [];
  const all = zones.reduce((sum: number, zone: any) => sum + zone.area_m2, 0);
  let before = 0;
  for (const { id: zone_id, area_m2, strips = 0 } of zones) {
    for (let k = 1; k <= (strips || 1); k += 1) {
      const done_area_m2 = before + (area_m2 * k) / (strips || 1);
      const counted = load_kg && done_area_m2 >= covered_m2 - 1e-9;
      const left_kg = counted ? load_kg - rate_kg_m2 * (done_area_m2 - covered_m2) : null;
      const at = { number: rows.length + 1, of_zone: k, points_m: null, length_m: null };
      const kind = strips ? "strip" : "whole";
      rows.push({ zone_id, kind, ...at, done_area_m2, to_go_area_m2: all - done_area_m2, left_kg });
    }
    before += area_m2;
  }
  return says({ rows, strips_total: rows.length });
}

/** The balance, as `spreading.used` keeps it: what there was less what is left. */
export function used(args: any) {
  const { start_kg, added_kg = 0, left_kg, handfuls, handful_kg, hopper_kg, in_bag_kg = 0, measured } = args;
  const there = start_kg + added_kg;
  const left = left_kg ?? (hopper_kg === undefined ? handfuls * handful_kg : hopper_kg + in_bag_kg);
  if (left > there * 1.01)
    return { error: { code: "out_of_range", name: "left_kg", low: 0, high: there, message: "too much" } };
  const left_sd_kg = { scale: 0.01 * left, level: args.hopper_sd_kg, handfuls: 0.25 * left }[
    String(measured)
  ];
  const rest = Math.min(left, there);
  return says({ used_kg: there - rest, left_kg: rest, left_sd_kg, share_of_aim: null });
}

/** What a look says; the advice is one click lower, and only carried through. */
export const CHECKED = {
  dial: 5.5,
  advice: "lower",
  reason: "More came out than expected.",
  expected_now_kg: 8,
  expected_now_range_kg: { low: 7.5, high: 8.5 },
  likely_end_kg: { low: 1, mid: 2, high: 3 },
  likely_end_as_is_kg: { low: 0, mid: 0.5, high: 1 },
  chance_of_running_out: 0.03,
  rate_so_far_kg_m2: 0.03,
  rate_kg_m2: { low: 0.02, mid: 0.025, high: 0.03 },
  rate_as_is_kg_m2: { low: 0.025, mid: 0.03, high: 0.035 },
};

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
        reason: "Nothing is known of this spreader yet.",
        rate_kg_m2: { low: 0.02, mid: 0.025, high: 0.03 },
        dial_likely: { low: 5, high: 8 },
      }),
    "spreading.next": () =>
      says({
        dial: 7.5,
        left_kg: { low: 0, mid: 0.4, high: 1 },
        chance_of_running_out: 0.05,
        bad_passes: [],
        basis: "same_product",
        advice: "walk",
        rate_kg_m2: { low: 0.02, mid: 0.03, high: 0.035 },
      }),
    "spreading.check": () => says(CHECKED),
    "limits.setback": ({ zones }) =>
      says({
        zones: zones.map(({ id, area_m2, near_water }: any) =>
          near_water
            ? { zone_id: id, setback_m: 7.62, out_m2: null, area_m2 }
            : { zone_id: id, setback_m: null, out_m2: 0, area_m2 },
        ),
        setback_m: 7.62,
        out_m2: 0,
        area_m2: 200,
      }),
    "limits.ceilings": () => says({ zones: [], lime_once_kg_m2: null }),
    "record.before": () => says({ warnings: [] }),
    "spreading.used": used,
    "spreading.curve": () => refuses("not asked here"),
    "swath.tour": tour,
    "spreading.split": ({ passes }) => {
      const used_kg = passes.reduce((sum: number, pass: any) => sum + pass.used_kg, 0);
      return says({
        used_kg,
        zones: [
          { zone_id: "verge", area_m2: 120, used_kg: used_kg * 0.6, rate_kg_m2: 0.05, n_kg_m2: 0.01 },
          { zone_id: "long", area_m2: 80, used_kg: used_kg * 0.4, rate_kg_m2: 0.05, n_kg_m2: 0.01 },
        ],
      });
    },
    "hopper.level": ({ mass_kg }) =>
      mass_kg > 8 ? refuses("more than it holds") : says({ level_share: mass_kg / 8 }),
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
      name: { name: "Plain 23-0-9", sort: "fertilizer" },
      label: { net_kg: 20, coverage_m2: 400 },
      analysis: { n_percent: 23, slow_n_share: 0.5 },
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
  return createSpreading({ ...parts, system: () => "metric", rest: (over) => over() });
}

export async function chosen(store = shelf(), answers = engine()) {
  const spreading = walkOver(store, answers);
  await spreading.open();
  spreading.begin();
  await spreading.change({ zone_ids: ["verge", "long"], product_id: "slow", spreader_id: "rotary" });
  return spreading;
}

export async function inTheYard(store = shelf(), answers = engine()) {
  const spreading = await chosen(store, answers);
  await spreading.setOff();
  return spreading;
}

export const left = (draft: SpreadDraft | null | undefined, part: Partial<SpreadDraft["left"]>) => {
  if (!draft) throw new Error("no walk on foot");
  return { left: { ...draft.left, ...part } };
};

export const kg = (amount: string) => ({ amount, unit: "kg" });

export async function weighed(spreading: ReturnType<typeof walkOver>, amount: string) {
  await spreading.go("left");
  await spreading.change(left(spreading.draft.value, { way: "scale", weight: kg(amount) }));
  return spreading.record();
}

export const passBodies = (store: ReturnType<typeof shelf>) =>
  store.saved.flat().flatMap(({ body }) => ((body as any)?.kind === "pass" ? [body as any] : []));

export type Spreading = Awaited<ReturnType<typeof inTheYard>>;

/** In the yard with ten strips counted by hand across the first zone; the second is one row. */
export async function striped(store = shelf(), answers = engine()) {
  const spreading = await inTheYard(store, answers);
  await spreading.setStrips("verge", 10);
  return spreading;
}

export const form = (spreading: Spreading, part: Partial<SpreadDraft["check"]>) => {
  const { check } = spreading.draft.value ?? {};
  if (!check) throw new Error("no walk on foot");
  return { check: { ...check, ...part } };
};

export async function checkedAt(spreading: Spreading, amount: string, dial: number) {
  await spreading.openCheck();
  await spreading.change(form(spreading, { way: "scale", weight: kg(amount) }));
  return spreading.decide(dial);
}

export async function count(spreading: Spreading, times: number) {
  for (let k = 0; k < times; k += 1) await spreading.count();
}
