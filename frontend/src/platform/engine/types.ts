/** What the engine's door takes and answers: calls by name, as their docstrings type them (calls.gen.ts). */
import type { Calls } from "./calls.gen";

export type CallName = keyof Calls;
export type Args<N extends CallName> = Calls[N]["args"];
export type Value<N extends CallName> = Calls[N]["value"];

export interface Step {
  what: string;
  formula: string;
  numbers: Record<string, unknown>;
  result: unknown;
  unit: string;
  source: string;
  /** The zone or product the step is about, where an answer speaks of several. */
  of?: string;
}

export interface EngineError {
  code: string;
  name?: string;
  value?: unknown;
  low?: number | null;
  high?: number | null;
  message: string;
}

export interface Reply<V> {
  value: V;
  working: Step[];
  engine: string;
  error?: undefined;
}

export interface Refusal {
  error: EngineError;
  value?: undefined;
  working?: undefined;
}

export type Answer<V> = Reply<V> | Refusal;
/** The answer to a call by its name. */
export type AnswerTo<N extends CallName> = Answer<Value<N>>;

/** One call into the engine by name; the arguments are SI with units in their names. */
export type EngineCall = <N extends CallName>(name: N, args: Args<N>) => Promise<AnswerTo<N>>;
