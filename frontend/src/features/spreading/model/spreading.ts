/**
 * The walk on foot: from the choice of ground to the entry in the book. Each step is kept in the
 * phone's drafts at once, each pass in the book at once, so that a lock, a dead battery or a reload
 * costs nothing. Figures come from the engine; while it is not ready the job waits, holding all input.
 *
 * What a screen shows may lag behind a fast thumb by a moment, so every action asks the engine
 * afresh for what it writes down.
 */

import { computed, signal } from "@preact/signals";
import { sayRefusal } from "../../../forms/refusal";
import { sayNotSaved } from "../../../forms/saving";
import type { Args, CallName, Value } from "../../../platform/engine/types";
import { given } from "../../../records/entries";
import { figureRefused } from "../../../records/kinds";
import { rest } from "../../../records/rest";
import {
  type AimValue,
  aimArgs,
  aimTrouble,
  type NextValue,
  nextArgs,
  type StartValue,
  startArgs,
} from "./asks";
import { answeredOf, beforeArgs, choiceCeilings, unanswered } from "./before/before";
import { brokenAnswered, brokenArgs, brokenBy, warningsHere } from "./before/broken";
import { checkLoad, planOf } from "./before/plan";
import { passBody, spreadBody, stepDone } from "./bodies";
import { createKeeper } from "./draft-store";
import { learningOf } from "./learning";
import { upgraded } from "./migrate";
import {
  blankJob,
  type Going,
  leftNow,
  onFoot,
  reopened,
  stepBack,
  steppedBack,
  stepsBeneath,
} from "./steps";
import { finishArgs } from "./sums";
import type { Crossing, PassDone, Plan, SpreadDraft, SpreadStep, Suggestion } from "./types";
import { askJob, type SpreadParts, watchJob } from "./watch";
import { createYard } from "./yard";
import { layOut } from "./yard/lay";
import { readLeft } from "./yard/left";
import { patternOf } from "./yard/rows";
import { outBefore } from "./yard/scorched";

export { SPREAD_KEY } from "./key";

export function createSpreading(parts: SpreadParts) {
  const { store, engine, now, memberId, system } = parts;
  const busy = signal(false);
  const refused = signal<string | undefined>(undefined);
  const refuse = (message: string) => {
    refused.value = message;
  };
  const keeper = createKeeper(store, refuse);
  const seen = watchJob(parts, keeper);
  const asked = askJob(seen, parts);
  const { draft, passes, choice, history } = seen;
  const yard = createYard({ keeper, seen, asked, once, refuse, parts });

  async function open(): Promise<void> {
    await parts.ready?.();
    await keeper.open((kept) => upgraded(kept, system()));
    // A job of an earlier build, or one whose strips could not be laid out then.
    if (draft.value?.pass?.rows.length === 0) void yard.relay();
  }

  /** A fresh walk; kept from its first choice on, so that a mere look leaves nothing behind. */
  function begin(): void {
    draft.value = blankJob(store.newId(), now(), system());
  }
  /** What was answered belongs to the zones, product and amount it was asked of. */
  const change = (patch: Partial<SpreadDraft>) =>
    keeper.show((then) => ({
      ...then,
      ...(ASKED_OF.some((key) => key in patch) ? { answers: {} } : {}),
      // Another product is another job than the step's.
      ...("product_id" in patch ? { season_step_id: undefined } : {}),
      ...patch,
    }));

  /** Another page: what lies under the thumb then is not what was tapped. */
  function go(step: SpreadStep): Promise<void> {
    rest.begin();
    return change({ step });
  }

  /** One step back: where that leads, undefined where there is none. */
  function back(): SpreadStep | undefined {
    const at = seen.step.peek();
    const to = at ? stepBack(at, draft.peek()?.pass, passes.peek()) : null;
    if (to && at === "yard") void keeper.settle((then) => steppedBack(then, to));
    else if (to) void go(to);
    return to ?? undefined;
  }

  /** One thing at a time: a second tap of a gloved thumb does nothing. */
  async function once<T>(work: () => Promise<T>): Promise<T | undefined> {
    if (busy.value) return undefined;
    busy.value = true;
    refused.value = undefined;
    try {
      return await rest.during(work);
    } catch (error) {
      refused.value = sayNotSaved(error);
      return undefined;
    } finally {
      busy.value = false;
    }
  }

  /** The engine's answer now; a refusal is kept to be shown, and nothing is done. */
  async function fresh<N extends CallName>(name: N, args: Args<N> | null): Promise<Value<N> | undefined> {
    if (!args) return undefined;
    const answer = await engine.call(name, args);
    if (answer.error) refused.value = sayRefusal(answer.error, system());
    return answer.value;
  }

  /** Freezes the plan and goes out with the first pass. */
  const setOff = () =>
    once(async () => {
      const from = draft.value;
      const choice = await seen.choiceNow();
      const aim = from && (await fresh("label.aim", aimArgs(from, choice)));
      const load_kg = aim && checkLoad(from, aim, system()).kg;
      if (!from || !aim || !load_kg) return false;
      const spread = { net_kg: load_kg, coverage_m2: choice.area_m2 };
      const load_kg_m2 = (await fresh("label.rate", spread))?.rate_kg_m2;
      const answered = await answeredNow(aim);
      if (!answered) return false;
      const ask = startArgs(choice, load_kg_m2, from.passes, history.value);
      const said = await fresh("spreading.start", ask);
      if (!said || !load_kg_m2) return false;
      const plan = planOf(choice, {
        aim,
        load_kg,
        load_kg_m2,
        passes: said.passes ?? from.passes ?? said.passes_advised,
      });
      return plan ? goOut({ ...plan, ...answered }, 1, plan.load_kg, suggested(said)) : false;
    });

  /** What was answered to the warnings as the book stands now; undefined where one still waits for its answer. */
  async function answeredNow(aim: AimValue): Promise<Pick<Plan, "answered"> | undefined> {
    const zones = choiceCeilings(choice.value);
    const limits = zones ? (await engine.call("limits.ceilings", zones)).value : undefined;
    const at = now();
    const facts = { choice: choice.value, aim, limits, now: at, me: memberId() };
    const ask = beforeArgs({ ...facts, entries: seen.entries.value, products: seen.products.value });
    const found = ask ? (await engine.call("record.before", ask)).value : undefined;
    const rules = (await engine.call("limits.rules", asked.rulesAsk())).value;
    const checkable = asked.checkingNow(at);
    const checking = brokenArgs({ ...checkable, aim, rules, days: checkable.days ?? [] });
    const checked = checking ? (await engine.call("limits.check", checking)).value : undefined;
    const warnings = warningsHere(found?.warnings ?? [], rules);
    const broken = brokenBy(checked?.breaches ?? [], warnings);
    const { answers } = draft.value ?? {};
    if (unanswered([...warnings, ...broken], answers).length) {
      refuse(UNANSWERED);
      await keeper.show((then) => ({ ...then, step: "aim" }));
      return undefined;
    }
    const answered = [...answeredOf(warnings, answers, at), ...brokenAnswered(broken, answers, at)];
    return answered.length ? { answered } : {};
  }

  /** Out with a pass: its strips laid out, then all of it kept at once. */
  async function goOut(plan: Plan, number: number, start_kg: number, said: Suggestion): Promise<boolean> {
    const { crossing = "offset", strips = {} } = draft.value ?? {};
    const walked = passes.value.filter(({ nothing_came }) => !nothing_came).length;
    const pattern = patternOf(walked + 1, plan.passes, crossing);
    const start_measured = passes.value.at(-1)?.measured;
    const going: Going = { id: store.newId(), number, start_kg, start_measured, said, pattern };
    const base = { kg: start_kg, area_m2: 0 };
    const rate_kg_m2 = said.rate_kg_m2?.mid ?? null;
    const gone = outBefore(draft.value, number);
    const laid = await layOut(engine.call, plan, { pattern, base, rate_kg_m2 }, strips, gone);
    return keeper.settle((then) => onFoot({ ...then, plan }, going, laid));
  }

  /** Out again with the next pass, at the dial the engine gives; where it gives none, at the last one. */
  const walkOn = () =>
    once(async () => {
      const { plan } = draft.value ?? {};
      const last = passes.value.at(-1);
      if (!draft.value || !plan || !last || last.left_kg <= 0) return false;
      const ask = nextArgs(draft.value, passes.value, await asked.standsNow(), history.value);
      const said = await fresh("spreading.next", ask);
      const dial = said ? suggested(said) : sameAgain(last, refused.value);
      return goOut(plan, last.number + 1, leftNow(plan, passes.value), dial);
    });

  /** Writes the pass into the book first, then the draft: the book decides where the job stands. */
  const record = () =>
    once(async () => {
      const { plan, pass, left, ops = {} } = draft.value ?? {};
      if (!draft.value || !plan || !pass || !left || ops[pass.id]) return false;
      const context = { plan, pass, hopper: choice.value.spreader?.hopper, system: system() };
      const read = await readLeft(engine.call, left, context);
      if (!read.ok) return false;
      const body = passBody(draft.value, plan, pass, read, signed());
      if (!mayStand("pass", body)) return false;
      const { op } = await store.save([{ t: "entry", id: pass.id, body }]);
      const { left_sd_kg } = read.reading;
      return keeper.settle((then) => ({
        ...then,
        step: "next",
        left_sd_kg,
        stopped_at: null,
        ops: { ...then.ops, [pass.id]: op },
      }));
    });

  /** Nothing is saved that the book's contract refuses: it would be set aside later, or block its spreader. */
  function mayStand(kind: "pass" | "spread", body: object): boolean {
    const message = figureRefused(kind, body, system());
    if (message) refuse(message);
    return message === undefined;
  }

  const signed = () => ({ occurred_at: now(), by: memberId() });

  /** Takes the last pass back: out of the outbox while unsent, else struck out; then it can be entered anew. */
  const takeBack = () =>
    once(async () => {
      const last = passes.value.at(-1);
      if (!draft.value || !last) return false;
      const began = (await asked.standsNow())?.passes.at(-1);
      const op = draft.value.ops[last.id];
      if (!op || !(await store.withdraw(op))) await strike(last.id);
      const id = store.newId();
      return keeper.settle((then) => reopened(then, last, id, began));
    });

  async function strike(id: string): Promise<void> {
    const why = { void: true, why: "Entered by mistake", by: memberId() ?? null, at: now() };
    await store.save([{ t: "entry", id, set: { void: why } }]);
  }

  /** Decides afterwards whether a pass is learned from; the pass itself stays as it was noted. */
  const learnFrom = (entryId: string, learn: boolean) =>
    once(async () => {
      const entry = seen.entries.value.find(({ id }) => id === entryId);
      return entry && store.save([learningOf(entry.row, !learn, { by: memberId(), at: now() })]);
    });

  const finish = () =>
    once(async () => {
      const { plan, ops = {} } = draft.value ?? {};
      if (!draft.value || !plan || ops[draft.value.id]) return false;
      const whole = await fresh("spread.finish", finishArgs(plan, passes.value));
      if (!whole) return false;
      const body = spreadBody(draft.value, plan, passes.value, whole, signed());
      if (!mayStand("spread", body)) return false;
      const { op } = await store.save([{ t: "entry", id: draft.value.id, body }, ...stepDone(draft.value)]);
      return keeper.settle((then) => ({ ...then, step: "finish", ops: { ...then.ops, [then.id]: op } }));
    });

  return {
    ...seen,
    ...asked,
    ...yard,
    busy,
    refused,
    trouble: computed(() => (draft.value ? aimTrouble(draft.value, choice.value.product) : undefined)),
    loaded: computed(() => ["zone", "product", "spreader", "entry"].every((t) => store.loaded(t).value)),
    open,
    begin,
    change,
    /** Later passes between the first tracks, or the last one across them. */
    setPattern: (crossing: Crossing) => change({ crossing }),
    go,
    back,
    canGoBack: computed(() => {
      const at = seen.step.value;
      return at !== null && stepBack(at, draft.value?.pass, passes.value) !== null;
    }),
    /** Steps that back leads through from here. */
    beneath: computed(() => {
      const at = seen.step.value;
      return at ? stepsBeneath(at, draft.value?.pass, passes.value) : [];
    }),
    setOff,
    record,
    takeBack,
    walkOn,
    learnFrom,
    finish,
    /** Puts the draft away: after the finish card, or a job given up before any pass. */
    putAway: keeper.drop,
    /** The job just put away, back again. */
    takeUpAgain: keeper.restore,
  };
}

const ASKED_OF = ["zone_ids", "product_id", "aim"];
const UNANSWERED = "Answer each warning first. The label and local rules come before this app.";

export type SpreadModel = ReturnType<typeof createSpreading>;

function suggested(said: StartValue | NextValue): Suggestion {
  const { dial, left_kg, chance_of_running_out, reason: why, rate_kg_m2, dial_likely } = said;
  return { dial, left_kg, chance_of_running_out, why, ...given({ rate_kg_m2, dial_likely }) };
}

function sameAgain(last: PassDone, message: string | undefined): Suggestion {
  const why = `No new setting could be worked out${message ? ` (${message})` : ""}. This is the last pass’s.`;
  return { dial: last.dial, left_kg: null, chance_of_running_out: null, why };
}
