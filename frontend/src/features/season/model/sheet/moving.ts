/** A step that is being moved: where to, what the rules answer meanwhile, and that it is written only where it is taken. */
import { signal } from "@preact/signals";
import { dayAfter } from "../../../../format";
import { type Recorded, record } from "../../../../forms/recorded";
import type { Args, EngineError, Value } from "../../../../platform/engine";
import { ask, type Engine } from "../../../../platform/engine/ask";
import type { Mutation, Store } from "../../../../platform/store/types";
import type { Kept } from "../plan/book";
import type { SheetModel } from "./sheet";

export type Moved = Value<"season.moved">;
export type Breach = Moved["breaches"][number];

/** How far a step may go, in weeks. */
export interface Reach {
  earlier_weeks: number;
  later_weeks: number;
}

export interface Picked extends Reach {
  step: Kept;
  weeks: number;
  from_on: string;
  to_on: string;
}

/** What became of taking it: written, or a rule or the engine speaks against it. */
export type Taken = { kept: Recorded } | { kept?: undefined; error?: EngineError };

export interface MovingParts {
  store: Pick<Store, "save" | "withdraw">;
  engine: Engine;
  sheet: Pick<SheetModel, "answer" | "kept">;
}

const DAYS = 7;

function at(step: Kept, weeks: number, reach: Reach): Picked {
  const far = Math.max(-reach.earlier_weeks, Math.min(reach.later_weeks, weeks));
  const by = far * DAYS;
  const { earlier_weeks, later_weeks } = reach;
  const days = { from_on: dayAfter(step.from_on, by), to_on: dayAfter(step.to_on, by) };
  return { step, weeks: far, earlier_weeks, later_weeks, ...days };
}

export function createMoving({ store, engine, sheet }: MovingParts) {
  const picked = signal<Picked | undefined>(undefined);
  /** It was to be taken, but a rule speaks against it: taking it anyway is another press. */
  const refused = signal(false);

  function args(now: Picked): Args<"season.moved"> | null {
    const base = sheet.answer.peek()?.value?.moving;
    if (!base) return null;
    return { ...base, move: { step: now.step.id, from: now.from_on, to: now.to_on } };
  }

  const said = ask(engine, "season.moved", () => (picked.value ? args(picked.value) : null), {
    forget: true,
  });

  function pick(id: string, reach: Reach, weeks = 0): void {
    const step = sheet.kept.value.find((one) => one.id === id);
    if (!step) return;
    refused.value = false;
    picked.value = at(step, weeks, reach);
  }

  function to(weeks: number): void {
    const now = picked.value;
    if (!now) return;
    const next = at(now.step, weeks, now);
    if (next.weeks === now.weeks) return;
    refused.value = false;
    picked.value = next;
  }

  function leave(): void {
    refused.value = false;
    picked.value = undefined;
  }

  /** Asks once more, of the very days that are written; against a rule only with `anyway`. */
  async function take(anyway = false): Promise<Taken> {
    const now = picked.value;
    const asked = now && args(now);
    if (!now || !asked) return {};
    const answer = await engine.call("season.moved", asked);
    if (answer.error) return { error: answer.error };
    if (answer.value.breaches.length && !anyway) {
      refused.value = picked.value === now;
      return {};
    }
    const kept = await write(store, now);
    if (picked.value === now) leave();
    return { kept };
  }

  return {
    picked,
    refused,
    said,
    pick,
    to,
    by: (weeks: number) => to((picked.value?.weeks ?? 0) + weeks),
    leave,
    take,
  };
}

/** Moved by hand it stays where it was put. */
function write(store: MovingParts["store"], { step, from_on, to_on }: Picked): Promise<Recorded> {
  const of = { t: "step" as const, id: step.id };
  const laid = (group: string, value: object) => ({ ...step.row.groups[group]?.value, ...value });
  const write: Mutation = {
    ...of,
    set: { window: laid("window", { from_on, to_on }), lock: laid("lock", { locked: true }) },
  };
  const over: Mutation = {
    ...of,
    set: {
      window: laid("window", { from_on: step.from_on, to_on: step.to_on }),
      lock: laid("lock", { locked: step.locked }),
    },
  };
  return record(store, [write], [over]);
}

export type MovingModel = ReturnType<typeof createMoving>;
