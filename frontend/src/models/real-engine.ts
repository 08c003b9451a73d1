/** For tests: the engine itself, as it runs on a phone. */
import { execFileSync } from "node:child_process";
import type { Answer } from "../engine/types";

export function realEngine(call: string, args: object): Answer<any> {
  const input = JSON.stringify({ cases: [{ call, args }] });
  const run = ["tools/engine-node.mjs", "--batch"];
  return JSON.parse(execFileSync(process.execPath, run, { input, encoding: "utf8" }))[0];
}
