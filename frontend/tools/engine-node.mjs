// Runs the engine's own Python files under MicroPython in Node: one call, or a batch from stdin.
//   node engine-node.mjs CALL 'JSON'        prints the answer
//   node engine-node.mjs --batch < cases    reads {"cases": [{"call", "args"}]}, prints a JSON list of answers
//   node engine-node.mjs --times < cases    the same with {"repeats"}: prints, for each case, the milliseconds of each call
import { readFileSync } from "node:fs";
import { start } from "./engine-runtime.mjs";

/** How long each call took, in milliseconds, `repeats` times over; the first call of a case is not counted. */
function times(callJson, { cases, repeats }) {
  return cases.map(({ call, args }) => {
    const text = JSON.stringify(args);
    callJson(call, text);
    return Array.from({ length: repeats }, () => {
      const began = performance.now();
      callJson(call, text);
      return performance.now() - began;
    });
  });
}

async function main([first, second]) {
  const callJson = await start();
  if (first === "--times") {
    process.stdout.write(`${JSON.stringify(times(callJson, JSON.parse(readFileSync(0, "utf8"))))}\n`);
    return;
  }
  if (first !== "--batch") {
    process.stdout.write(`${callJson(first, second ?? "{}")}\n`);
    return;
  }
  const { cases } = JSON.parse(readFileSync(0, "utf8"));
  const answers = cases.map(({ call, args }) => callJson(call, JSON.stringify(args)));
  process.stdout.write(`[${answers.join(",\n")}]\n`);
}

await main(process.argv.slice(2));
