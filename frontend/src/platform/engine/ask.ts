/** A figure of the engine that follows its arguments: asked anew when they change, while somebody looks. */
import { batch, effect, type ReadonlySignal, signal } from "@preact/signals";
import { inTurn } from "../turns";
import { textOf } from "./text";
import type { Answer, AnswerTo, Args, CallName, EngineCall } from "./types";

export type Engine = { call: EngineCall };

/** An answer that is followed, and whether it is still that to older arguments. */
export type Followed<V> = ReadonlySignal<V | undefined> & {
  /** True while the answer to the arguments as they stand is on its way; says so only while the answer is watched. */
  readonly busy: ReadonlySignal<boolean>;
};

/**
 * The last answer to `name` for what `args` returns; null arguments ask nothing. Only while the signal is watched are the
 * arguments followed, so a screen that is shut costs no engine time. A late answer to old arguments is dropped. With
 * `keep`, arguments that were answered are not asked again when somebody looks anew; an error always is. With `forget`
 * nothing is shown while an answer to other arguments is on its way: for what a thumb may act on at once. Without it the
 * last answer stays meanwhile, and whoever shows it says by `busy` that it is being worked out anew.
 */
export function ask<N extends CallName>(
  engine: Engine,
  name: N,
  args: () => Args<N> | null,
  how?: Following,
): Followed<AnswerTo<N>> {
  return follow((now) => engine.call(name, now), args, how);
}

export interface Following {
  keep?: boolean;
  forget?: boolean;
  /** Nothing is asked before all of these are true, and then in a turn of its own: what is read of a long log takes a while. */
  after?: readonly ReadonlySignal<boolean>[];
}

/** As `ask`, for an answer that takes more than one call. */
export function follow<A extends object, V>(
  answered: (args: A) => Promise<Answer<V>>,
  args: () => A | null,
  { keep = false, forget = false, after = [] }: Following = {},
): Followed<Answer<V>> {
  /** It may read what it asks with: at once where it waits for nothing. */
  const mine = signal(after.length === 0);
  const begin = () => {
    mine.value = true;
  };
  let stop: (() => void) | undefined;
  let turn = 0;
  let asked = "";
  /** What the present answer was asked with. */
  let told: string | undefined;
  const busy = signal(false);
  const answer = signal<Answer<V> | undefined>(undefined, {
    watched() {
      if (answer.peek()?.error) {
        asked = "";
        told = undefined;
      }
      stop = effect(() => {
        const ready = after.every((one) => one.value);
        if (ready && !mine.value) return inTurn(begin);
        const now = ready ? args() : null;
        const text = now ? textOf(now) : "";
        if (text === asked && (keep || answer.peek())) return;
        asked = text;
        turn += 1;
        busy.value = now !== null && text !== told;
        if (forget && text !== told) answer.value = undefined;
        if (now) void answerTo(now, text, turn);
      });
    },
    unwatched() {
      stop?.();
      mine.value = after.length === 0;
      if (!keep) asked = "";
    },
  });
  async function answerTo(now: A, text: string, mine: number): Promise<void> {
    const got = await answered(now);
    if (mine !== turn) return;
    told = text;
    batch(() => {
      answer.value = got;
      busy.value = false;
    });
  }
  return Object.assign(answer, { busy });
}
