/** The engine in a component: the answer to the arguments as they stand. */
import { useEffect, useRef, useState } from "preact/hooks";
import { call } from "./client";
import type { AnswerTo, Args, CallName } from "./types";

const DEBOUNCE_MS = 60;

export interface Asked<N extends CallName> {
  answer: AnswerTo<N> | undefined;
  /** True from a change of the arguments until their answer is there; the last answer stays meanwhile. */
  busy: boolean;
}

/**
 * Asks the engine whenever the arguments change in content, after a short pause in typing. With
 * null nothing is asked and the answer is undefined. Late answers to older arguments are dropped.
 */
export function useEngine<N extends CallName>(name: N, args: Args<N> | null): Asked<N> {
  const key = args === null ? null : `${name} ${JSON.stringify(args)}`;
  const [got, setGot] = useState<{ key: string; answer: AnswerTo<N> } | undefined>(undefined);
  const latest = useRef(args);
  latest.current = args;
  useEffect(() => {
    if (key === null) {
      setGot(undefined);
      return undefined;
    }
    let wanted = true;
    const timer = setTimeout(async () => {
      if (latest.current === null) return;
      const answer = await call(name, latest.current);
      if (wanted) setGot({ key, answer });
    }, DEBOUNCE_MS);
    return () => {
      wanted = false;
      clearTimeout(timer);
    };
  }, [key, name]);
  return { answer: key === null ? undefined : got?.answer, busy: key !== null && got?.key !== key };
}
