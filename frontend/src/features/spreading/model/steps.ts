/**
 * The job as a state machine: pure functions from one draft to the next. What has been walked is
 * never kept here but read from the book's pass entries, so a phone that dies between saving a pass
 * and saving the draft still knows where it stood.
 */

import type { Entry } from "../../../records/entries";
import type { MeasuredBy } from "../../../records/pass-history";
import { drawable } from "../../../ui/drawing/dial-shape";
import type { StandingValue } from "./sums";
import type { PassDone, PassOnFoot, Pattern, Plan, SpreadDraft, SpreadStep, Suggestion } from "./types";
import { type LaidOut, laidOn } from "./yard/lay";
import { unwalked } from "./yard/rows";

/** One handful, when nobody has weighed theirs: common practice, and marked so where it is used. */
const HANDFUL = { us: { amount: "3.5", unit: "oz" }, metric: { amount: "100", unit: "g" } };
const MASS = { us: "lb", metric: "kg" };
const DENSITY = { us: "lb_ft3", metric: "kg_m3" };
const NITROGEN = {
  us: { amount: "0.5", unit: "n_lb_kft2" },
  metric: { amount: "2.5", unit: "n_g_m2" },
};

type System = "us" | "metric";

function blankLeft(system: System): SpreadDraft["left"] {
  return {
    way: "scale",
    weight: { amount: "", unit: MASS[system] },
    level_share: null,
    density: { amount: "", unit: DENSITY[system] },
    in_bag: { amount: "", unit: MASS[system] },
    handfuls: "",
    handful: HANDFUL[system],
    covered: "",
    whole: null,
  };
}

/** A job before anything is chosen. */
export function blankJob(id: string, started_at: string, system: System): SpreadDraft {
  return {
    shape: 2,
    id,
    started_at,
    step: "choose",
    zone_ids: [],
    product_id: null,
    spreader_id: null,
    aim: { kind: "label", nitrogen: NITROGEN[system], bags: "1" },
    crossing: "offset",
    confirmed: [],
    loaded: { amount: "", unit: MASS[system] },
    passes: null,
    plan: null,
    pass: null,
    left: blankLeft(system),
    check: { ...blankLeft(system), way: "level" },
    pour: {
      from: "bag",
      in_bag: { amount: "", unit: MASS[system] },
      added: { amount: "", unit: MASS[system] },
    },
    strips: {},
    stopped_at: null,
    left_sd_kg: null,
    ops: {},
  };
}

/** The passes of a job that stand in the book, in the order walked. */
export function passesOf(spreadId: string, entries: readonly Entry[]): PassDone[] {
  return entries
    .filter(({ kind, body, struck }) => kind === "pass" && body["spread_id"] === spreadId && !struck)
    .map(({ id, body }) => ({
      id,
      number: body["number"],
      dial: body["dial"],
      area_m2: body["area_m2"],
      measured: body["measured"],
      start_kg: body["start_kg"] ?? 0,
      left_kg: body["left_kg"] ?? 0,
      used_kg: body["used_kg"],
      added_kg: body["added_kg"] ?? 0,
      ran_out: body["ran_out"] === true,
      nothing_came: body["nothing_came"] === true,
      damp: body["damp"] === true,
      ...(body["pattern"] ? { pattern: body["pattern"] } : {}),
      parts: body["parts"] ?? [],
      checks: body["checks"] ?? [],
      ...(body["out"] ? { out: body["out"] } : {}),
    }))
    .sort((a, b) => a.number - b.number || (a.id < b.id ? -1 : 1));
}

const IN_PASS: readonly SpreadStep[] = ["yard", "check", "left"];

/** Where the job really stands: the draft's step, put right by what the book already holds. */
export function standsAt(draft: SpreadDraft, passes: readonly PassDone[], finished: boolean): SpreadStep {
  if (finished) return "finish";
  const booked = passes.some((pass) => pass.id === draft.pass?.id);
  if (booked && IN_PASS.includes(draft.step)) return "next";
  if (!booked && draft.pass && (draft.step === "next" || draft.step === "finish")) return "left";
  return draft.step;
}

/** What is in hopper and bag now: the load, or what the last pass left. */
export function leftNow(plan: Plan, passes: readonly PassDone[]): number {
  return passes.at(-1)?.left_kg ?? plan.load_kg;
}

/** The dial of the last pass on which something came out. */
export function lastDial(passes: readonly PassDone[]): number | undefined {
  return passes.filter((pass) => !pass.nothing_came).at(-1)?.dial;
}

/** A pass about to be walked. */
export interface Going {
  id: string;
  number: number;
  start_kg: number;
  /** How what there is was read, after the pass before. */
  start_measured?: MeasuredBy | undefined;
  said: Suggestion;
  pattern: Pattern;
}

/** The draft when a pass is about to be walked, over the rows laid out for it. */
export function onFoot(
  draft: SpreadDraft,
  going: Going,
  { rows, out, clear }: LaidOut = { rows: [], out: [], clear: [] },
): SpreadDraft {
  const { id, number, start_kg, start_measured = null, said, pattern } = going;
  const start_sd_kg = start_measured ? draft.left_sd_kg : null;
  const fresh = unwalked(start_kg);
  const { dial, left_kg: expect, chance_of_running_out, why, rate_kg_m2 } = said;
  const pass: PassOnFoot = {
    ...fresh,
    part: { ...fresh.part, there_sd_kg: start_sd_kg },
    rows,
    ...laidOn({ out, clear }),
    id,
    number,
    dial,
    start_kg,
    start_sd_kg,
    start_measured,
    expect,
    chance_of_running_out,
    why,
    suggested: said,
    pattern,
    rate_kg_m2: rate_kg_m2?.mid ?? null,
    in_bag_kg: draft.pass?.in_bag_kg ?? draft.in_bag_kg ?? null,
  };
  return {
    ...draft,
    step: "yard",
    pass,
    stopped_at: null,
    left: unread(draft.left),
    check: unread(draft.check),
  };
}

/** The same form with nothing read yet: the way of reading and what a handful weighs stay. */
export function unread(form: SpreadDraft["left"]): SpreadDraft["left"] {
  return {
    ...form,
    way: usualWay(form),
    weight: { ...form.weight, amount: "" },
    handfuls: "",
    covered: "",
    level_share: null,
    whole: null,
  };
}

/** The way of reading used last, but a run-out or a blocked gate is not a habit. */
export function usualWay({ way, usual = "scale" }: SpreadDraft["left"]): SpreadDraft["left"]["way"] {
  return way === "ran_out" || way === "nothing" ? usual : way;
}

/** The form at the end of a pass walked to its end: a run-out or a blocked gate looked at before is not said again by it. */
export function asUsual(form: SpreadDraft["left"]): SpreadDraft["left"] {
  const way = usualWay(form);
  return way === form.way ? form : { ...form, way, covered: "" };
}

/**
 * The dial set by hand, before anything is walked at it. What was expected of the suggested setting no longer holds.
 * Later changes go through a check, so that each setting has its own stretch and its own product in the book.
 */
export function redialled(draft: SpreadDraft, dial: number): SpreadDraft {
  const { pass, plan } = draft;
  if (!pass || !plan || !drawable(plan.dial) || pass.done > pass.part.rows) return draft;
  const { suggested } = pass;
  const rows = pass.rows.map((row) => ({ ...row, left_kg: null }));
  if (suggested?.dial === dial) {
    const { left_kg: expect, chance_of_running_out, why, rate_kg_m2 } = suggested;
    const rate = rate_kg_m2?.mid ?? null;
    return { ...draft, pass: { ...pass, rows, dial, expect, chance_of_running_out, why, rate_kg_m2: rate } };
  }
  const own = { dial, expect: null, chance_of_running_out: null, why: "You chose this setting." };
  return { ...draft, pass: { ...pass, rows, ...own, rate_kg_m2: null } };
}

/** The draft with a pass open again, under a new id: an entry struck out stays struck out. */
export function reopened(
  from: SpreadDraft,
  last: PassDone,
  id: string,
  began: StretchBegan | undefined,
): SpreadDraft {
  const { number, dial, start_kg } = last;
  const said = from.pass?.id === last.id ? from.pass : rebuilt(last, began);
  return { ...from, step: "left", pass: { ...said, id, number, dial, start_kg } };
}

/** Where the last stretch of a pass began, as `spread.standing` tells it. */
type StretchBegan = Pick<StandingValue["passes"][number], "there_kg" | "from_m2">;

/** A pass as the book tells it, where the phone's own draft of it is gone. */
function rebuilt(last: PassDone, began: StretchBegan | undefined): PassOnFoot {
  const { id, number, dial, start_kg, added_kg, damp, pattern = "plain", checks } = last;
  const parts = last.parts.slice(0, -1);
  const { there_kg, from_m2: area_m2 } = began ?? { there_kg: start_kg, from_m2: 0 };
  return {
    ...unwalked(there_kg),
    ...{ id, number, dial, start_kg, added_kg, damp, pattern, checks, parts },
    ...{ expect: null, chance_of_running_out: null, why: "", rate_kg_m2: null },
    part: { there_kg, rows: 0, area_m2 },
    base: { kg: there_kg, area_m2 },
  };
}

/** Whether nothing of a pass is noted as put down: no strip counted, nothing read on the way. */
export function untouched({ done, parts, checks }: PassOnFoot): boolean {
  return done === 0 && parts.length === 0 && checks.length === 0;
}

const BACK: Partial<Record<SpreadStep, SpreadStep>> = {
  aim: "choose",
  cautions: "aim",
  load: "cautions",
  check: "yard",
  left: "yard",
};

/**
 * A step back that keeps everything typed. Once a pass is in the book, nothing before it can be changed; a pass nothing
 * has gone down of is none yet, and its way back is to where it was set off from.
 */
export function stepBack(
  step: SpreadStep,
  pass: PassOnFoot | null | undefined,
  passes: readonly PassDone[],
): SpreadStep | null {
  if (step !== "yard") return BACK[step] ?? null;
  if (!pass || !untouched(pass) || pass.added_kg > 0) return null;
  return passes.length ? "next" : "load";
}

/** Every step that back leads through, the nearest last. */
export function stepsBeneath(
  step: SpreadStep,
  pass: PassOnFoot | null | undefined,
  passes: readonly PassDone[],
): SpreadStep[] {
  const to = stepBack(step, pass, passes);
  return to ? [...stepsBeneath(to, pass, passes), to] : [];
}

/** The draft a step further back. Out of the yard the pass is none any more, and before the first the plan is open again. */
export function steppedBack(draft: SpreadDraft, to: SpreadStep): SpreadDraft {
  if (to !== "load" && to !== "next") return { ...draft, step: to };
  const in_bag_kg = draft.pass?.in_bag_kg ?? draft.in_bag_kg ?? null;
  const set_off = { ...draft, step: to, pass: null, in_bag_kg, stopped_at: null };
  return to === "load" ? { ...set_off, plan: null } : set_off;
}
