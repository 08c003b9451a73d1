/**
 * The walk as a state machine: pure functions from one draft to the next. What has been walked is
 * never kept here but read from the book's pass entries, so a phone that dies between saving a pass
 * and saving the draft still knows where it stood.
 */
import { drawable } from "../drawing/dial-shape";
import type { Entry } from "./entries";
import type { PassDone, PassOnFoot, Plan, Suggestion, WalkDraft, WalkStep } from "./walk-types";

/** One handful, when nobody has weighed theirs: common practice, and marked so where it is used. */
const HANDFUL = { us: { amount: "3.5", unit: "oz" }, metric: { amount: "100", unit: "g" } };
const MASS = { us: "lb", metric: "kg" };
const DENSITY = { us: "lb_ft3", metric: "kg_m3" };
const NITROGEN = {
  us: { amount: "0.5", unit: "n_lb_kft2" },
  metric: { amount: "2.5", unit: "n_g_m2" },
};

type System = "us" | "metric";

function blankLeft(system: System): WalkDraft["left"] {
  return {
    way: "scale",
    weight: { amount: "", unit: MASS[system] },
    level_share: null,
    density: { amount: "", unit: DENSITY[system] },
    in_bag: { amount: "", unit: MASS[system] },
    handfuls: "",
    handful: HANDFUL[system],
    covered: "",
  };
}

/** A walk before anything is chosen. */
export function blankWalk(id: string, started_at: string, system: System): WalkDraft {
  return {
    shape: 1,
    id,
    started_at,
    step: "choose",
    zone_ids: [],
    product_id: null,
    spreader_id: null,
    aim: { kind: "label", nitrogen: NITROGEN[system], bags: "1" },
    confirmed: [],
    loaded: { amount: "", unit: MASS[system] },
    passes: null,
    plan: null,
    pass: null,
    left: blankLeft(system),
    left_sd_kg: null,
    ops: {},
  };
}

/** The passes of a walk that stand in the book, in the order walked. */
export function passesOf(walkId: string, entries: readonly Entry[]): PassDone[] {
  return entries
    .filter(({ kind, body, struck }) => kind === "pass" && body["walk_id"] === walkId && !struck)
    .map(({ id, body }) => ({
      id,
      number: body["number"],
      dial: body["dial"],
      area_m2: body["area_m2"],
      start_kg: body["start_kg"] ?? 0,
      left_kg: body["left_kg"] ?? 0,
      used_kg: body["used_kg"],
      ran_out: body["ran_out"] === true,
      nothing_came: body["nothing_came"] === true,
    }))
    .sort((a, b) => a.number - b.number || (a.id < b.id ? -1 : 1));
}

/** Where the walk really stands: the draft's step, put right by what the book already holds. */
export function standsAt(draft: WalkDraft, passes: readonly PassDone[], finished: boolean): WalkStep {
  if (finished) return "finish";
  const booked = passes.some((pass) => pass.id === draft.pass?.id);
  if (booked && (draft.step === "yard" || draft.step === "left")) return "next";
  if (!booked && draft.pass && (draft.step === "next" || draft.step === "finish")) return "left";
  return draft.step;
}

/** What is in hopper and bag now: the load, or what the last pass left. */
export function leftNow(plan: Plan, passes: readonly PassDone[]): number {
  return passes.at(-1)?.left_kg ?? plan.load_kg;
}

/** Passes still to walk as planned. A pass on which nothing came out is walked again. */
export function passesToGo(plan: Plan, passes: readonly PassDone[]): number {
  if (passes.some((pass) => pass.ran_out)) return 0;
  return Math.max(0, plan.passes - passes.filter((pass) => !pass.nothing_came).length);
}

/** Product put down so far, kg. */
export function usedSoFar(passes: readonly PassDone[]): number {
  return passes.reduce((sum, pass) => sum + pass.used_kg, 0);
}

/** The dial of the last pass on which something came out. */
export function lastDial(passes: readonly PassDone[]): number | undefined {
  return passes.filter((pass) => !pass.nothing_came).at(-1)?.dial;
}

/** The draft when a pass is about to be walked. */
export function onFoot(
  draft: WalkDraft,
  id: string,
  number: number,
  start_kg: number,
  said: Suggestion,
): WalkDraft {
  const { dial, left_kg: expect, chance_of_running_out, why } = said;
  const pass: PassOnFoot = {
    id,
    number,
    dial,
    start_kg,
    expect,
    chance_of_running_out,
    why,
    suggested: said,
  };
  const fresh = {
    ...draft.left,
    weight: { ...draft.left.weight, amount: "" },
    handfuls: "",
    covered: "",
    level_share: null,
  };
  return { ...draft, step: "yard", pass, left: { ...fresh, way: usualWay(draft) } };
}

/** The way of reading used last, but a run-out or a blocked gate is not a habit. */
function usualWay(draft: WalkDraft): WalkDraft["left"]["way"] {
  const { way } = draft.left;
  return way === "ran_out" || way === "nothing" ? "scale" : way;
}

/** The dial set by hand. What was expected of the suggested setting no longer holds. */
export function redialled(draft: WalkDraft, dial: number): WalkDraft {
  if (!draft.pass || !draft.plan || !drawable(draft.plan.dial)) return draft;
  const { suggested } = draft.pass;
  if (suggested?.dial === dial) {
    const { left_kg: expect, chance_of_running_out, why } = suggested;
    return { ...draft, pass: { ...draft.pass, dial, expect, chance_of_running_out, why } };
  }
  const own = { dial, expect: null, chance_of_running_out: null, why: "You set this dial yourself." };
  return { ...draft, pass: { ...draft.pass, ...own } };
}

/** A step back that keeps everything typed. Once a pass is in the book, nothing before it can be changed. */
export function stepBack(step: WalkStep): WalkStep | null {
  const back: Partial<Record<WalkStep, WalkStep>> = {
    aim: "choose",
    cautions: "aim",
    load: "cautions",
    left: "yard",
  };
  return back[step] ?? null;
}
