/**
 * The walk on foot: from the choice of ground to the entry in the book. Each step is kept in the
 * phone's drafts at once, each pass in the book at once, so that a lock, a dead battery or a reload
 * costs nothing. Figures come from the engine; while it is not ready the walk waits, holding all input.
 *
 * What a screen shows may lag behind a fast thumb by a moment, so every action asks the engine
 * afresh for what it writes down.
 */
import { computed, signal } from "@preact/signals";
import { learningOf } from "./learning";
import {
  type AimValue,
  aimArgs,
  aimTrouble,
  type Basis,
  type NextValue,
  nextArgs,
  type SplitValue,
  type StartValue,
  splitArgs,
  startArgs,
} from "./walk-asks";
import { passBody, walkBody } from "./walk-bodies";
import { type HopperMass, type LeftContext, readLeft } from "./walk-left";
import { checkLoad, planOf } from "./walk-plan";
import { blankWalk, leftNow, onFoot, redialled, stepBack, usedSoFar } from "./walk-steps";
import type { PassDone, Plan, Suggestion, WalkDraft, WalkStep } from "./walk-types";
import { askWalk, levelArgs, type WalkParts, watchWalk } from "./walk-watch";

/** Where a walk on foot is kept; Today looks here. */
export const WALK_KEY = "walk";

export function createWalk(parts: WalkParts) {
  const { store, engine, now, memberId, system } = parts;
  const seen = watchWalk(parts);
  const asked = askWalk(seen, parts);
  const { draft, passes, choice, history } = seen;
  const busy = signal(false);
  const refused = signal<string | undefined>(undefined);

  /** Kept in order: a later state is never overwritten by an earlier one still being written. */
  let writing: Promise<unknown> = Promise.resolve();
  function keep(next: WalkDraft): Promise<void> {
    draft.value = next;
    const write = writing.then(() => store.drafts.put(WALK_KEY, next));
    writing = write.catch(() => undefined);
    return write;
  }

  async function open(): Promise<void> {
    draft.value = undefined;
    await writing;
    draft.value = (await store.drafts.get<WalkDraft>(WALK_KEY)) ?? null;
  }

  /** A fresh walk; kept from its first choice on, so that a mere look leaves nothing behind. */
  function begin(): void {
    draft.value = blankWalk(store.newId(), now(), system());
  }
  const change = (patch: Partial<WalkDraft>) =>
    draft.value ? keep({ ...draft.value, ...patch }) : undefined;

  /** One thing at a time: a second tap of a gloved thumb does nothing. */
  async function once<T>(work: () => Promise<T>): Promise<T | undefined> {
    if (busy.value) return undefined;
    busy.value = true;
    refused.value = undefined;
    try {
      return await work();
    } finally {
      busy.value = false;
    }
  }

  /** The engine's answer now; a refusal is kept to be shown, and nothing is done. */
  async function fresh<V>(name: string, args: object | null): Promise<V | undefined> {
    if (!args) return undefined;
    const answer = await engine.call<V>(name, args);
    if (answer.error) refused.value = answer.error.message;
    return answer.value;
  }

  /** Freezes the plan and goes out with the first pass. */
  const setOff = () =>
    once(async () => {
      const from = draft.value;
      const aim = from && (await fresh<AimValue>("label.aim", aimArgs(from, choice.value)));
      const load_kg = aim && checkLoad(from, aim, system()).kg;
      if (!from || !aim || !load_kg) return false;
      const spread = { net_kg: load_kg, coverage_m2: choice.value.area_m2 };
      const load_kg_m2 = (await fresh<{ rate_kg_m2: number }>("label.rate", spread))?.rate_kg_m2;
      const ask = startArgs(choice.value, load_kg_m2, from.passes, history.value);
      const said = await fresh<StartValue>("spreading.start", ask);
      if (!said || !load_kg_m2) return false;
      const plan = planOf(choice.value, {
        aim,
        load_kg,
        load_kg_m2,
        passes: from.passes ?? said.passes_advised,
      });
      if (plan) await keep(onFoot({ ...from, plan }, store.newId(), 1, plan.load_kg, suggested(said)));
      return plan !== undefined;
    });

  /** Out again with the next pass, at the dial the engine gives; where it gives none, at the last one. */
  const walkOn = () =>
    once(async () => {
      const { plan } = draft.value ?? {};
      const last = passes.value.at(-1);
      if (!draft.value || !plan || !last || last.left_kg <= 0) return false;
      const ask = nextArgs(draft.value, passes.value, Math.max(1, asked.toGo.value), history.value);
      const said = await fresh<NextValue>("spreading.next", ask);
      const dial = said ? suggested(said) : sameAgain(last, refused.value);
      await keep(onFoot(draft.value, store.newId(), last.number + 1, leftNow(plan, passes.value), dial));
      return true;
    });

  async function contextNow(plan: Plan, start_kg: number): Promise<LeftContext> {
    const way = draft.value?.left.way;
    const args = way === "level" ? levelArgs(draft.value, choice.value) : null;
    const hopper = (await fresh<HopperMass>("hopper.mass", args)) ?? null;
    return { plan, start_kg, system: system(), hopper };
  }

  /** Writes the pass into the book first, then the draft: the book decides where the walk stands. */
  const record = () =>
    once(async () => {
      const { plan, pass, ops = {} } = draft.value ?? {};
      if (!draft.value || !plan || !pass || ops[pass.id]) return false;
      const read = readLeft(draft.value.left, await contextNow(plan, pass.start_kg));
      if (!read.ok) return false;
      const body = passBody(draft.value, plan, pass, read.reading, choice.value.spreader, signed());
      const { op } = await store.save([{ t: "entry", id: pass.id, body }]);
      const { left_sd_kg } = read.reading;
      await keep({ ...draft.value, step: "next", left_sd_kg, ops: { ...ops, [pass.id]: op } });
      return true;
    });

  const signed = () => ({ occurred_at: now(), by: memberId() });

  /** Takes the last pass back: out of the outbox while unsent, else struck out; then it can be entered anew. */
  const takeBack = () =>
    once(async () => {
      const last = passes.value.at(-1);
      if (!draft.value || !last) return false;
      const op = draft.value.ops[last.id];
      if (!op || !(await store.withdraw(op))) await strike(last.id);
      await keep(reopened(draft.value, last, store.newId()));
      return true;
    });

  async function strike(id: string): Promise<void> {
    const why = { void: true, why: "Entered by mistake", by: memberId() ?? null, at: now() };
    await store.save([{ t: "entry", id, set: { void: why } }]);
  }

  /** Decides afterwards whether a pass is learnt from; the pass itself stays as it was noted. */
  const learnFrom = (entryId: string, learn: boolean) =>
    once(() => store.save([learningOf(entryId, !learn, memberId(), now())]));

  const finish = () =>
    once(async () => {
      const { plan, ops = {} } = draft.value ?? {};
      if (!draft.value || !plan || ops[draft.value.id]) return false;
      const split = await fresh<SplitValue>("spreading.split", splitArgs(plan, usedSoFar(passes.value)));
      if (!split) return false;
      const body = walkBody(draft.value, plan, passes.value, split, signed());
      const { op } = await store.save([{ t: "entry", id: draft.value.id, body }]);
      await keep({ ...draft.value, step: "finish", ops: { ...ops, [draft.value.id]: op } });
      return true;
    });

  /** Puts the draft away: after the finish card, or a walk given up before any pass. */
  async function putAway(): Promise<WalkDraft | null> {
    const last = draft.value ?? null;
    await writing;
    await store.drafts.remove(WALK_KEY);
    draft.value = null;
    return last;
  }

  return {
    ...seen,
    ...asked,
    busy,
    refused,
    reading: computed(() => {
      const { plan, pass, left } = draft.value ?? {};
      if (!plan || !pass || !left) return undefined;
      const hopper = asked.level.value?.value ?? null;
      return readLeft(left, { plan, start_kg: pass.start_kg, system: system(), hopper });
    }),
    trouble: computed(() => (draft.value ? aimTrouble(draft.value, choice.value.product) : undefined)),
    loaded: computed(() => ["zone", "product", "spreader", "entry"].every((t) => store.loaded(t).value)),
    open,
    begin,
    change,
    go: (step: WalkStep) => change({ step }),
    back() {
      const to = seen.step.value ? stepBack(seen.step.value) : null;
      return to ? change({ step: to }) : undefined;
    },
    setOff,
    setDial: (dial: number) => (draft.value ? keep(redialled(draft.value, dial)) : undefined),
    record,
    takeBack,
    walkOn,
    learnFrom,
    finish,
    putAway,
    restore: (kept: WalkDraft) => keep(kept),
  };
}

export type WalkModel = ReturnType<typeof createWalk>;

function suggested({ dial, left_kg, chance_of_running_out, basis }: StartValue | NextValue): Suggestion {
  return { dial, left_kg, chance_of_running_out, why: WHY[basis] ?? "" };
}

/** The plain reason for a setting. */
export const WHY: Record<Basis, string> = {
  nothing_known: "The book holds no pass of this spreader yet: a third open is the usual cautious start.",
  other_product: "Worked out from what this spreader did with another product, so it may be well off.",
  same_product: "Worked out from this spreader's own passes with this product.",
};

function sameAgain(last: PassDone, message: string | undefined): Suggestion {
  const why = `No new setting could be worked out${message ? ` (${message})` : ""}: this is the last pass's.`;
  return { dial: last.dial, left_kg: null, chance_of_running_out: null, why };
}

/** The draft with a pass open again, under a new id: an entry struck out stays struck out. */
function reopened(from: WalkDraft, { id, number, dial, start_kg }: PassDone, newId: string): WalkDraft {
  const said = from.pass?.id === id ? from.pass : null;
  const { expect = null, chance_of_running_out = null, why = "" } = said ?? {};
  return {
    ...from,
    step: "left",
    pass: { id: newId, number, dial, start_kg, expect, chance_of_running_out, why },
  };
}
