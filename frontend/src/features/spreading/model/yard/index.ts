/** What can be done in the yard: counting strips, looking into the hopper, pouring in, stopping for the day. */

import { computed, signal } from "@preact/signals";
import { sayRefusal } from "../../../../forms/refusal";
import type { Change, Keeper } from "../draft-store";
import { asUsual, redialled, unread, untouched, usualWay } from "../steps";
import type { PassOnFoot, Plan, SpreadDraft } from "../types";
import type { Asked, SpreadParts, Watched } from "../watch";
import { checkArgs, decided, MOST_PARTS, partsWalked, readLook } from "./check";
import { laidOn, layOut, rateAt } from "./lay";
import type { LeftContext } from "./left";
import { type PourTrouble, poured, readPour } from "./pour";
import { coveredBy, standing } from "./rows";
import { outBefore } from "./scorched";

/** Two taps closer than this are one: no strip is walked so fast, and a glove shakes. */
const REST_MS = 900;

/** Waits a moment; handed in by tests. */
export type Rest = (over: () => void) => void;
const restAWhile: Rest = (over) => void setTimeout(over, REST_MS);

interface Tools {
  keeper: Keeper;
  seen: Watched;
  asked: Asked;
  once: <T>(work: () => Promise<T>) => Promise<T | undefined>;
  refuse: (message: string) => void;
  parts: SpreadParts;
}

/** A change to the pass on foot, only while it is still that pass. */
function onPass(id: string, change: (pass: PassOnFoot) => Partial<PassOnFoot>): Change {
  return (draft) =>
    draft.pass?.id === id ? { ...draft, pass: { ...draft.pass, ...change(draft.pass) } } : draft;
}

/** The same for a strip counted, on or back: what is half read, of a level or of what is left, belongs to the strip it was read at. */
function onStrip(id: string, from: number, to: number): Change {
  return (draft) => {
    const { pass, left, check } = draft;
    return pass?.id === id && pass.done === from
      ? { ...draft, pass: { ...pass, done: to }, left: unread(left), check: unread(check) }
      : draft;
  };
}

export function createYard({ keeper, seen, asked, once, refuse, parts }: Tools) {
  const { engine, now, system, rest = restAWhile } = parts;
  const { draft, history, choice, passes } = seen;
  const call = engine.call;
  const resting = signal(false);
  const pourTrouble = signal<PourTrouble | undefined>(undefined);

  const walking = (): { plan: Plan; pass: PassOnFoot } | undefined => {
    const { plan, pass } = draft.value ?? {};
    return plan && pass ? { plan, pass } : undefined;
  };

  const contextNow = ({ plan, pass }: { plan: Plan; pass: PassOnFoot }): LeftContext => ({
    plan,
    pass,
    hopper: choice.value.spreader?.hopper,
    system: system(),
  });

  /** The rows again, for what is known now: after a reading, a pour, another setting, strips typed. */
  async function relay(): Promise<void> {
    const on = walking();
    if (!on) return;
    const { plan, pass } = on;
    const { dial, base } = pass;
    const past = [...history.value, ...partsWalked(plan, pass)];
    const rate_kg_m2 = pass.rate_kg_m2 ?? (await rateAt(call, plan, dial, past));
    const gone = outBefore(draft.value, pass.number);
    const laid = await layOut(call, plan, { ...pass, rate_kg_m2 }, draft.value?.strips ?? {}, gone);
    const same = (then: PassOnFoot) => then.dial === dial && then.base.kg === base.kg && laid.rows.length > 0;
    await keeper.show(
      onPass(pass.id, (then) => (same(then) ? { rows: laid.rows, rate_kg_m2, ...laidOn(laid) } : {})),
    );
  }

  function restNow(): void {
    resting.value = true;
    rest(() => {
      resting.value = false;
    });
  }

  /** One row more, if it is still the row that was seen: a second tap, or a late one, counts nothing. */
  const count = () =>
    once(async () => {
      const { pass } = walking() ?? {};
      if (!pass || resting.value || pass.done >= pass.rows.length) return false;
      restNow();
      const { done } = pass;
      return keeper.settle(onStrip(pass.id, done, done + 1));
    });

  /** Takes the last count back, but not from behind a change of setting. */
  const uncount = () =>
    once(async () => {
      const { pass } = walking() ?? {};
      if (!pass || resting.value || pass.done <= pass.part.rows) return false;
      restNow();
      const { done } = pass;
      return keeper.settle(onStrip(pass.id, done, done - 1));
    });

  /** What was shown and tapped is what is set: the look is read anew, but never the setting. */
  const decide = (dial: number) =>
    once(async () => {
      const on = walking();
      if (!on || !draft.value) return false;
      const read = await readLook(call, draft.value.check, contextNow(on), draft.value);
      if (!read.ok) return false;
      const past = history.value;
      const stands = await asked.standsNow();
      if (!stands) return false;
      const ask = checkArgs(on.plan, on.pass, read.look, stands, past, passes.value);
      const { value, error } = await call("spreading.check", ask);
      if (!value) refuse(sayRefusal(error, system()));
      if (!value || !mayChange(on.pass, dial)) return false;
      const at = now();
      const kept = await keeper.settle((then) =>
        then.pass?.id === on.pass.id && then.step === "check"
          ? decided(then, { look: read.look, value, dial, at })
          : then,
      );
      if (kept) await relay();
      return kept;
    });

  function mayChange({ parts: walked, dial: before }: PassOnFoot, dial: number): boolean {
    const room = dial === before || walked.length < MOST_PARTS - 1;
    if (!room) refuse("This pass has had too many dial changes to save another. Continue at this dial.");
    return room;
  }

  const pour = () =>
    once(async () => {
      const on = walking();
      if (!on || !draft.value) return false;
      const context = { ...on, passes: passes.value, system: system() };
      const read = await readPour(call, draft.value.pour, context);
      pourTrouble.value = read.ok ? undefined : read;
      if (!read.ok) return false;
      const { added_kg } = on.pass;
      const kept = await keeper.settle((then) =>
        then.pass?.id === on.pass.id && then.pass.added_kg === added_kg ? poured(then, read) : then,
      );
      if (kept && read.sums) await relay();
      return kept;
    });

  /** Strips a zone without outline takes, as the person counts them; null takes the number away. */
  const setStrips = (zoneId: string, strips: number | null) =>
    once(async () => {
      const on = walking();
      if (!on) return false;
      const kept = await keeper.settle((then) => ({
        ...then,
        strips: withStrips(then.strips, zoneId, strips),
      }));
      if (kept) await relay();
      return kept;
    });

  /** The pass is walked: on to what is left, by the usual way of telling it; not by the tap that counted the last strip. */
  const endPass = () =>
    once(async () =>
      resting.value ? false : keeper.settle((then) => ({ ...then, step: "left", left: asUsual(then.left) })),
    );

  /** It ran out here: the rows counted are the ground covered, to be put right if they are not. */
  const ranOut = () =>
    keeper.settle((then) => {
      const { done, rows } = then.pass ?? { done: 0, rows: [] };
      const covered = rows.length > 1 && done > 0 ? `${done} of ${rows.length}` : then.left.covered;
      return {
        ...then,
        step: "left",
        left: { ...then.left, way: "ran_out", usual: usualWay(then.left), covered },
      };
    });

  function setDial(dial: number): Promise<void> {
    const shown = keeper.show((then) => redialled(then, dial));
    return shown.then(relay);
  }

  return {
    resting,
    pourTrouble,
    standing: computed(() => {
      const on = walking();
      return on ? standing(on.plan, on.pass) : undefined;
    }),
    /** What may be left of a row count that cannot be undone is not offered. */
    canUncount: computed(() => {
      const { pass } = walking() ?? {};
      return pass !== undefined && pass.done > pass.part.rows;
    }),
    canTurn: computed(() => {
      const { pass } = walking() ?? {};
      return pass !== undefined && pass.done <= pass.part.rows && covered(pass) <= pass.part.area_m2;
    }),
    /** A look needs ground walked and ground to go: strips counted, or a zone walked in part. */
    canCheck: computed(() => {
      const { pass } = walking() ?? {};
      const row = pass?.rows[pass.done];
      return pass !== undefined && row !== undefined && (pass.done > 0 || row.kind === "whole");
    }),
    relay,
    count,
    uncount,
    decide,
    pour,
    setStrips,
    ranOut,
    endPass,
    /** Nothing of the pass on foot is noted as put down: it can be left without a trace. */
    untouched: computed(() => {
      const { pass } = walking() ?? {};
      return pass !== undefined && untouched(pass);
    }),
    setDial,
    openCheck: () => {
      const measured = choice.value.spreader?.hopper !== undefined;
      return keeper.settle((then) => ({ ...then, step: "check", check: fitting(then.check, measured) }));
    },
    setDamp: (damp: boolean) => {
      const { pass } = walking() ?? {};
      return pass ? keeper.settle(onPass(pass.id, () => ({ damp }))) : undefined;
    },
    /** For tonight: everything stands; another evening goes on at the next strip. */
    stop: () => {
      const stopped_at = now();
      return keeper.settle((then) => ({ ...then, stopped_at }));
    },
    resume: () => keeper.settle((then) => ({ ...then, stopped_at: null })),
  };
}

/** A level cannot be read where the hopper's measures are unknown. */
function fitting(form: SpreadDraft["check"], measured: boolean): SpreadDraft["check"] {
  return form.way === "level" && !measured ? { ...form, way: "scale" } : form;
}

const covered = ({ rows, done }: PassOnFoot) => coveredBy(rows, done);

function withStrips(all: Record<string, number>, id: string, strips: number | null): Record<string, number> {
  const { [id]: _, ...rest } = all;
  return strips === null ? rest : { ...rest, [id]: strips };
}
