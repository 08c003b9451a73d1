/** For tests: the engine itself, the same files as on a phone (tests/parity holds both runtimes to one answer). */
import { execFileSync } from "node:child_process";
import type { AnswerTo, Args, CallName } from "../platform/engine/types";

const ASK = "import sys; from lawn.engine.door import call_json; print(call_json(sys.argv[1], sys.argv[2]))";

export function realEngine<N extends CallName>(call: N, args: Args<N>): AnswerTo<N> {
  const run = ["-c", ASK, call, JSON.stringify(args)];
  return JSON.parse(execFileSync("python3", run, { cwd: "..", encoding: "utf8" }));
}
