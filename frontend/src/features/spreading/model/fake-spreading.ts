/** For tests: a shed and a ground to walk over, and the few steps every job shares. */
import type { Args, Refusal, Value } from "../../../platform/engine";
import type { Table } from "../../../platform/engine/fake-engine";
import { fakeBook, fakeEngine, groups, refuses } from "../../../records/fake-book";
import { createSpreading } from "./spreading";
import type { SpreadDraft } from "./types";
import type { SpreadParts } from "./watch";

export const LIKELY = { low: 4, mid: 5, high: 6 };

/** Zones without outline as the engine tours them: one row each, or the strips counted; product goes by the ground. */
export function tour({ zones, load_kg, rate_kg_m2 = 0, covered_m2 = 0 }: Args<"swath.tour">) {
  const rows: Value<"swath.tour">["rows"] = [];
  const all = zones.reduce((sum, zone) => sum + zone.area_m2, 0);
  let before = 0;
  for (const { id: zone_id, area_m2, strips = 0 } of zones) {
    for (let k = 1; k <= (strips || 1); k += 1) {
      const done_area_m2 = before + (area_m2 * k) / (strips || 1);
      const counted = load_kg && done_area_m2 >= covered_m2 - 1e-9;
      const left_kg = counted ? load_kg - rate_kg_m2 * (done_area_m2 - covered_m2) : null;
      const at = { number: rows.length + 1, of_zone: k, points_m: null, length_m: null };
      const ground = { walked_m2: done_area_m2, out_m2: 0, done_area_m2, to_go_area_m2: all - done_area_m2 };
      rows.push({ zone_id, kind: strips ? "strip" : "whole", ...at, ...ground, left_kg });
    }
    before += area_m2;
  }
  return { rows, zones: [], strips_total: rows.length, area_m2: all };
}

/** The balance, as the engine keeps it: what there was less what is left. */
export function used(args: Args<"spreading.used">) {
  const { start_kg, added_kg = 0, left_kg, handfuls = 0, handful_kg = 0, hopper_kg, in_bag_kg = 0 } = args;
  const there = start_kg + added_kg;
  const left = left_kg ?? (hopper_kg === undefined ? handfuls * handful_kg : hopper_kg + in_bag_kg);
  if (left > there * 1.01) return tooMuch("left_kg", left, there);
  const errors = { scale: 0.01 * left, level: args.hopper_sd_kg ?? 0, handfuls: 0.25 * left };
  const rest = Math.min(left, there);
  return { used_kg: there - rest, left_kg: rest, left_sd_kg: errors[args.measured], share_of_aim: null };
}

/** The sums of a job as `spread.*` keeps them, for plain passes; sums.test.ts holds them to the engine's own. */
const added = <F extends string>(rows: readonly { [field in F]?: number }[], field: F) =>
  rows.reduce((sum, row) => sum + (row[field] ?? 0), 0);

type Job = Args<"spread.standing">;

export function stands(job: Job): Value<"spread.standing"> {
  const { plan, passes, on_foot = {}, hopper, bulk_density_kg_m3 } = job;
  const { load_kg, target_kg } = plan;
  const loaded_kg = load_kg + added(passes, "added_kg") + (on_foot.added_kg ?? 0);
  const used_kg = added(passes, "used_kg");
  const walked = passes.filter((pass) => !pass.nothing_came).length;
  const { expected_kg, in_bag_kg = 0 } = on_foot;
  const hopper_kg = expected_kg === undefined || in_bag_kg > expected_kg ? null : expected_kg - in_bag_kg;
  const fits = hopper && bulk_density_kg_m3 && hopper_kg !== null && hopper_kg <= 8;
  return {
    used_kg,
    left_kg: passes.at(-1)?.left_kg ?? load_kg,
    loaded_kg,
    may_add_kg: Math.max(0, target_kg - loaded_kg),
    share_of_target: used_kg / target_kg,
    passes_to_go: passes.some((pass) => pass.ran_out) ? 0 : Math.max(0, plan.passes - walked),
    passes: passes.map(({ parts = [], used_kg: all_kg, left_kg, area_m2 }) => ({
      used_kg: all_kg,
      covered_m2: area_m2,
      rate_kg_m2: all_kg / area_m2,
      there_kg: (parts.at(-1)?.used_kg ?? all_kg) + left_kg,
      from_m2: added(parts.slice(0, -1), "area_m2"),
    })),
    to_go_m2: null,
    hopper_kg,
    level_share: fits ? hopper_kg / 8 : null,
  };
}

function tooMuch(name: string, value: number, high: number): Refusal {
  return { error: { code: "out_of_range", name, value, low: 0, high, message: "too much" } };
}

export function pours({ on_foot, added_kg = 0, in_bag_kg = 0, ...job }: Args<"spread.pour">) {
  const { there_kg, base_kg, added_kg: before_kg = 0 } = on_foot;
  const slack = job.plan.target_kg * 0.02;
  const most = stands({ ...job, on_foot: { added_kg: before_kg } }).may_add_kg;
  if (in_bag_kg > there_kg) return tooMuch("in_bag_kg", in_bag_kg, there_kg);
  if (added_kg > most + slack) return tooMuch("added_kg", added_kg, most < slack ? 0 : most);
  const all = { added_kg: before_kg + added_kg };
  const { loaded_kg, may_add_kg } = stands({ ...job, on_foot: all });
  return { ...all, there_kg: there_kg + added_kg, base_kg: base_kg + added_kg, loaded_kg, may_add_kg };
}

export function closes(args: Args<"spread.close_pass">) {
  const { stretch, parts = [], measured, covered_m2, ground_m2 = 0, ran_out = false, goes_on = false } = args;
  const { level, left_kg, handfuls, handful_kg, in_bag_kg = 0, start_kg = 0, added_kg } = args;
  const seen = { left_kg, handfuls, handful_kg, in_bag_kg, measured };
  const read = level ? { ...seen, hopper_kg: level.level_share * 8, hopper_sd_kg: 0.5 } : seen;
  const since = used({ start_kg: stretch.there_kg, ...read });
  const whole = goes_on ? since : used({ start_kg, added_kg, ...read });
  if ("error" in whole) return whole;
  const own = parts.length || goes_on ? since : whole;
  const stretch_kg = "error" in own ? 0 : own.used_kg;
  const stretch_m2 = Math.max(0, covered_m2 - (stretch.from_m2 ?? 0));
  const { left_kg: rest_kg, left_sd_kg, used_kg } = whole;
  const row = { dial: stretch.dial, area_m2: stretch_m2, used_kg: stretch_kg, measured, left_kg: rest_kg };
  const closed = stretch_m2 >= 0.5 && (goes_on || parts.length > 0);
  return {
    used_kg: goes_on ? null : used_kg,
    left_kg: rest_kg,
    left_sd_kg,
    rate_kg_m2: goes_on || !covered_m2 ? null : used_kg / covered_m2,
    stretch_kg,
    stretch_m2,
    parts: closed ? [...parts, row] : [...parts],
    closed,
    ran_out: ran_out && covered_m2 < ground_m2,
  };
}

function sumsUp({ plan, passes }: Args<"spread.finish">): Partial<Value<"spread.finish">> {
  const { used_kg, left_kg, loaded_kg, share_of_target } = stands({ plan, passes });
  const each = { rate_kg_m2: 0.05, n_kg_m2: 0.01, n_most_kg_m2: 0.01, p2o5_kg_m2: null };
  return {
    ...{ used_kg, left_kg, loaded_kg, share_of_target },
    rate_kg_m2: used_kg / 200,
    reached: ["verge", "long"],
    zones: [
      { zone_id: "verge", area_m2: 120, covered_m2: 120, used_kg: used_kg * 0.6, ...each },
      { zone_id: "long", area_m2: 80, covered_m2: 80, used_kg: used_kg * 0.4, ...each },
    ],
  };
}

function setsBack({ zones }: Args<"limits.setback">): Value<"limits.setback"> {
  return {
    zones: zones.map(({ id: zone_id, area_m2, near_water }) =>
      near_water
        ? { zone_id, setback_m: 7.62, out_m2: null, area_m2, drawn: false }
        : { zone_id, setback_m: null, out_m2: 0, area_m2, drawn: false },
    ),
    setback_m: 7.62,
    out_m2: 0,
    area_m2: 200,
  };
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
} satisfies Table["spreading.check"];

/** A start from nothing known, two passes advised. */
export const STARTED = {
  dial: 6,
  passes_advised: 2,
  passes: 2,
  share: 0.5,
  left_kg: LIKELY,
  chance_of_running_out: 0.04,
  basis: "nothing_known",
  advice: "walk",
  reason: "Nothing is known of this spreader yet.",
  rate_kg_m2: { low: 0.02, mid: 0.025, high: 0.03 },
  dial_likely: { low: 5, high: 8 },
} satisfies Table["spreading.start"];

export const NEXT = {
  dial: 7.5,
  left_kg: { low: 0, mid: 0.4, high: 1 },
  chance_of_running_out: 0.05,
  basis: "same_product",
  advice: "walk",
  reason: "Nearest to the aim by one pass with this product.",
  rate_kg_m2: { low: 0.02, mid: 0.03, high: 0.035 },
} satisfies Table["spreading.next"];

/** Answers as the engine gives them; the figures are made up and only carried through. */
export function engine(over: Table = {}) {
  return fakeEngine({
    "label.aim": { n_kg_m2: 0.012 },
    "label.rate": ({ net_kg, coverage_m2 }) => ({ rate_kg_m2: net_kg / coverage_m2 }),
    "spreading.start": STARTED,
    "spreading.next": NEXT,
    "spreading.check": CHECKED,
    "limits.setback": setsBack,
    "area.total": ({ zones }) => ({ area_m2: zones.reduce((sum, { area_m2 }) => sum + area_m2, 0) }),
    "hopper.fills": { fills: 1 },
    "limits.ceilings": { zones: [] },
    "record.before": {},
    "limits.rules": { rules: [], state: "unknown" },
    "limits.check": { breaches: [] },
    "spread.standing": stands,
    "spread.pour": pours,
    "spread.close_pass": closes,
    "spreading.curve": refuses("not asked here"),
    "swath.tour": tour,
    "spread.finish": sumsUp,
    "hopper.level": ({ mass_kg }) =>
      mass_kg > 8 ? refuses("more than it holds") : { level_share: mass_kg / 8 },
    "hopper.mass": ({ level_share }) => ({ mass_kg: level_share * 8, sd_kg: 0.5, capacity_kg: 8 }),
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

export function walkOver(store = shelf(), answers = engine(), more: Partial<SpreadParts> = {}) {
  const parts = { store, engine: answers, now: () => "2026-05-14T18:05:00+02:00", memberId: () => "me" };
  return createSpreading({ ...parts, system: () => "metric", rest: (over) => over(), ...more });
}

export async function chosen(store = shelf(), answers = engine(), more: Partial<SpreadParts> = {}) {
  const spreading = walkOver(store, answers, more);
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
