/** The phone's side of the engine: typed calls by name, answered by the worker. */

export { call, startEngine } from "./client";
export type {
  Answer,
  AnswerTo,
  Args,
  CallName,
  EngineCall,
  EngineError,
  Refusal,
  Reply,
  Step,
  Value,
} from "./types";
export { useEngine } from "./use-engine";
