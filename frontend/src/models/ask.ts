/** A figure of the engine that follows its arguments: asked anew when they change, while somebody looks. */
import { effect, type ReadonlySignal, signal } from "@preact/signals";
import type { Answer, EngineCall } from "../engine/types";

export type Engine = { call: EngineCall };

/**
 * The last answer to `name` for what `args` returns; null arguments ask nothing. Only while the signal is watched are the
 * arguments followed, so a screen that is shut costs no engine time. A late answer to old arguments is dropped. With
 * `keep`, arguments that were answered are not asked again when somebody looks anew; an error always is. With `forget`
 * nothing is shown while an answer to other arguments is on its way: for what a thumb may act on at once.
 */
export function ask<V>(
  engine: Engine,
  name: string,
  args: () => object | null,
  { keep = false, forget = false }: { keep?: boolean; forget?: boolean } = {},
): ReadonlySignal<Answer<V> | undefined> {
  let stop: (() => void) | undefined;
  let turn = 0;
  let asked = "";
  const answer = signal<Answer<V> | undefined>(undefined, {
    watched() {
      if (answer.peek()?.error) asked = "";
      stop = effect(() => {
        const now = args();
        const text = now ? JSON.stringify(now) : "";
        if (text === asked && (keep || answer.peek())) return;
        asked = text;
        turn += 1;
        if (forget) answer.value = undefined;
        if (now) void answerTo(now, turn);
      });
    },
    unwatched() {
      stop?.();
      if (!keep) asked = "";
    },
  });
  async function answerTo(now: object, mine: number): Promise<void> {
    const got = await engine.call<V>(name, now);
    if (mine === turn) answer.value = got;
  }
  return answer;
}
