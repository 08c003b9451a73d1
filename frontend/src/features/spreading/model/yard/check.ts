/** A look into the hopper on the way: what `spreading.check` is asked, and what a person's answer does to the draft. */
import type { Args, EngineCall, Value } from "../../../../platform/engine/types";
import { given } from "../../../../records/entries";
import { type PastPass, readBefore } from "../../../../records/pass-history";
import { productArgs } from "../../../../records/products";
import { atLeastOne } from "../asks";
import { unread } from "../steps";
import type { ClosedValue, StandingValue } from "../sums";
import type {
  CheckDone,
  LeftForm,
  PassDone,
  PassOnFoot,
  Plan,
  Reading,
  SpreadDraft,
  TourRow,
} from "../types";
import { askLeft, closed, type LeftContext, type LeftTrouble, readingOf, readPart } from "./left";
import { groundOf, type Laying, tourArgs, withoutOutlines } from "./rows";
import { outBefore, outOf, outRows, scorchedOf, scorchedStretch } from "./scorched";

export type CheckValue = Value<"spreading.check">;

/** A change on the way has to have had some ground before it, or the engine would refuse the stretch. */
export const LEAST_PART_M2 = 0.5;
/** As the book takes them. */
export const MOST_PARTS = 40;

/** Where the look was taken, and what was there. */
export interface Look {
  rows: number;
  area_done_m2: number;
  area_to_go_m2: number;
  reading: Reading;
  in_bag_kg: number | null;
  /** The stretch walked at the present setting, closed here: by itself only where it has some ground. */
  stretch: Pick<ClosedValue, "stretch_m2" | "parts" | "closed">;
}

export type ReadLook = { ok: true; look: Look } | LeftTrouble;

/** What is there now and how much of the ground is walked. */
export async function readLook(
  call: EngineCall,
  form: LeftForm,
  context: LeftContext,
  { strips, out }: Pick<SpreadDraft, "strips" | "out">,
): Promise<ReadLook> {
  const ask = askLeft(form, context);
  if ("ok" in ask) return ask;
  const gone = outBefore({ out }, context.pass.number);
  const place = await whereNow(call, form, context, { strips, out: gone });
  if ("ok" in place) return place;
  const ground_m2 = groundOf(context.plan, context.pass);
  const closing = { covered_m2: place.area_done_m2, ground_m2, goes_on: true };
  const said = await closed(call, ask, context, closing);
  if ("ok" in said) return said;
  const reading = readingOf(ask, said, place.area_done_m2);
  const { stretch_m2, parts, closed: by_itself } = said;
  const stretch = { stretch_m2, parts, closed: by_itself };
  return { ok: true, look: { ...place, reading, in_bag_kg: ask.in_bag_kg, stretch } };
}

type Place = Pick<Look, "rows" | "area_done_m2" | "area_to_go_m2">;

/** By the rows counted; within a zone that has no strips by the part of it that was typed. */
async function whereNow(
  call: EngineCall,
  form: LeftForm,
  { plan, pass }: LeftContext,
  laid: Pick<Laying, "strips" | "out">,
): Promise<Place | LeftTrouble> {
  const { rows, done } = pass;
  const last = rows[done - 1];
  const counted = last && { rows: done, area_done_m2: last.done_area_m2, area_to_go_m2: last.to_go_area_m2 };
  const here = rows[done];
  if (counted && counted.area_to_go_m2 < LEAST_PART_M2)
    return no("covered", "All of it is done. End the pass and weigh what is left.");
  if (form.covered.trim() === "" && counted) return counted;
  if (here && here.kind !== "whole") return no("covered", "Count the first strip, then check.");
  const part = readPart(form.covered);
  if ("message" in part) return no("covered", form.covered.trim() ? part.message : "Enter how much is done.");
  const row = await rowOfPart(call, plan, here, part, laid);
  if (!row || row.to_go_area_m2 < LEAST_PART_M2)
    return no("covered", "Nothing would be left to do. Enter less, or end the pass.");
  return { rows: done, area_done_m2: row.done_area_m2, area_to_go_m2: row.to_go_area_m2 };
}

const no = (field: LeftTrouble["field"], message: string): LeftTrouble => ({ ok: false, field, message });

/** The row at which a part of the present zone ends, the zone cut into as many strips as the part was typed of. */
async function rowOfPart(
  call: EngineCall,
  plan: Plan,
  here: TourRow | undefined,
  { walked, of }: { walked: number; of: number },
  laid: Pick<Laying, "strips" | "out">,
): Promise<TourRow | undefined> {
  const id = here?.zone_id ?? plan.zones[0]?.id ?? "";
  const cut = { ...plan, swath_m: plan.swath_m ?? 1 };
  const laying = { pattern: "plain", base: { kg: 0, area_m2: 0 }, rate_kg_m2: null, holes: {} } as const;
  const ask = tourArgs(withoutOutlines(cut), { ...laying, ...laid, strips: { ...laid.strips, [id]: of } });
  const answer = ask && (await call("swath.tour", ask));
  return answer?.value?.rows.filter(({ zone_id }) => zone_id === id)[walked - 1];
}

/** The stretches of this pass already closed, as `spreading.*` takes them: they are not in the book yet. */
export function partsWalked(plan: Plan, { parts, damp, start_kg, start_measured }: PassOnFoot): PastPass[] {
  const { id: product, sort, bulk_density_kg_m3, granules } = plan.product;
  const { swath_m, speed_m_s } = plan;
  const facts = given({ sort, bulk_density_kg_m3, granules, swath_m, speed_m_s });
  const first = start_measured ? { left_kg: start_kg, measured: start_measured } : undefined;
  const before = readBefore(parts, first);
  return parts.map(
    (part, k) => ({ product, ...part, ...facts, ...before[k], ...(damp ? { damp } : {}) }) as PastPass,
  );
}

export function checkArgs(
  plan: Plan,
  pass: PassOnFoot,
  look: Look,
  stands: StandingValue,
  history: readonly PastPass[],
  before: readonly PassDone[] = [],
): Args<"spreading.check"> {
  const { used_kg } = stands;
  const { swath_m, speed_m_s, label_share } = plan;
  const { left_kg: now_kg, left_sd_kg: now_sd_kg } = look.reading;
  return {
    dial: plan.dial,
    product: productArgs(plan.product),
    target_kg_m2: plan.target_kg_m2,
    ...(used_kg > 0 ? { used_kg, ...outOf(scorchedOf(before)) } : {}),
    ...given({ label_share }),
    area_m2: plan.area_m2,
    history: [...history, ...partsWalked(plan, pass)],
    left_kg: pass.part.there_kg,
    now_kg,
    ...given({ now_sd_kg, left_sd_kg: pass.part.there_sd_kg, swath_m, speed_m_s }),
    area_done_m2: look.stretch.stretch_m2,
    area_to_go_m2: look.area_to_go_m2,
    dial_now: pass.dial,
    passes_to_go: atLeastOne(stands),
  };
}

/** What the person decided after a look. */
export interface Decision {
  look: Look;
  value: CheckValue;
  /** The setting for the strips still to walk: the one advised, or the one set now. */
  dial: number;
  at: string;
}

function checkDone(pass: PassOnFoot, { look, value, dial: dial_after, at }: Decision): CheckDone {
  const { dial } = pass;
  const { rows: row, area_done_m2, reading, stretch } = look;
  const { left_kg: now_kg, measured, left_typed: typed } = reading;
  const noted = { at, row, area_done_m2, now_kg, measured, typed, dial_before: dial, dial_after };
  if (!value.scorched) return noted;
  const walked = { rows: row, area_m2: stretch.stretch_m2, used_kg: reading.used_kg };
  return { ...noted, scorched: scorchedStretch(pass, walked) };
}

/** The stretch that ends here, and where the next one begins; nothing new where hardly any ground was walked. */
function closedPart(pass: PassOnFoot, { look }: Decision): Pick<PassOnFoot, "parts" | "part"> {
  const { parts, closed: by_itself } = look.stretch;
  if (!by_itself) return { parts: pass.parts, part: pass.part };
  const { left_kg, left_sd_kg: there_sd_kg } = look.reading;
  return { parts, part: { there_kg: left_kg, there_sd_kg, rows: look.rows, area_m2: look.area_done_m2 } };
}

/** The draft after a look: noted either way; a new setting, or scorched ground, begins a new stretch of the pass. */
export function decided(draft: SpreadDraft, decision: Decision): SpreadDraft {
  const { pass } = draft;
  if (!pass) return draft;
  const { look, value, dial } = decision;
  const changed = dial !== pass.dial;
  const expect = changed ? value.likely_end_kg : value.likely_end_as_is_kg;
  const rate = changed ? value.rate_kg_m2 : value.rate_as_is_kg_m2;
  const next: PassOnFoot = {
    ...pass,
    ...(changed || value.scorched ? closedPart(pass, decision) : {}),
    dial,
    expect,
    chance_of_running_out: changed || value.dial === dial ? value.chance_of_running_out : null,
    why: changed ? value.reason : pass.why,
    rate_kg_m2: rate?.mid ?? null,
    in_bag_kg: look.in_bag_kg ?? pass.in_bag_kg,
    base: { kg: look.reading.left_kg, area_m2: look.area_done_m2 },
    checks: [...pass.checks, checkDone(pass, decision)],
  };
  const out = value.scorched
    ? [...(draft.out ?? []), ...outRows(pass, look.rows, look.area_done_m2)]
    : draft.out;
  const kept = { ...draft, step: "yard" as const, pass: next, check: unread(draft.check), stopped_at: null };
  return out ? { ...kept, out } : kept;
}
