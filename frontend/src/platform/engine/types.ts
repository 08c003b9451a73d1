/** What the engine's door answers; the shapes of the call catalogue. */

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

export type Answer<V = any> = Reply<V> | Refusal;

/** One call into the engine by name; the arguments are SI with units in their names. */
export type EngineCall = <V = any>(name: string, args: object) => Promise<Answer<V>>;
