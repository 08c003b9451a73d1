/** The engine in a component: the answer to the arguments as they stand. */
import { useEffect, useRef, useState } from "preact/hooks";
import { call } from "./client";
import type { Answer } from "./types";

const DEBOUNCE_MS = 60;

export interface Asked<V> {
  answer: Answer<V> | undefined;
  /** True from a change of the arguments until their answer is there; the last answer stays meanwhile. */
  busy: boolean;
}

/**
 * Asks the engine whenever the arguments change in content, after a short pause in typing. With
 * null nothing is asked and the answer is undefined. Late answers to older arguments are dropped.
 */
export function useEngine<V = any>(name: string, args: object | null): Asked<V> {
  const key = args === null ? null : `${name} ${JSON.stringify(args)}`;
  const [got, setGot] = useState<{ key: string; answer: Answer<V> } | undefined>(undefined);
  const latest = useRef(args);
  latest.current = args;
  useEffect(() => {
    if (key === null) {
      setGot(undefined);
      return undefined;
    }
    let wanted = true;
    const timer = setTimeout(async () => {
      const answer = await call<V>(name, latest.current ?? {});
      if (wanted) setGot({ key, answer });
    }, DEBOUNCE_MS);
    return () => {
      wanted = false;
      clearTimeout(timer);
    };
  }, [key, name]);
  return { answer: key === null ? undefined : got?.answer, busy: key !== null && got?.key !== key };
}
