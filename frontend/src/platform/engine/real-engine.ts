/**
 * For tests: the engine itself on MicroPython, the same compiled files as on a phone. Started once for a file of tests: a
 * process for each call took seconds.
 */
import { start } from "../../../tools/engine-runtime.mjs";
import type { AnswerTo, Args, CallName } from "./types";

const door = await start();

export function realEngine<N extends CallName>(call: N, args: Args<N>): AnswerTo<N> {
  return JSON.parse(door(call, JSON.stringify(args)));
}
