// node costs.mjs < models.json: what the phone's solver makes of season models, on Node. Each line of input is one model
// with its start and the gap asked for; each line of output what came of it.
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import loadHighs from "highs";
import { rolldown } from "rolldown";

const SECONDS = 60;
const solving = fileURLToPath(new URL("../../src/platform/solver/solving.ts", import.meta.url));
const between = mkdtempSync(join(tmpdir(), "solver-"));
const file = join(between, "solving.mjs");
const bundle = await rolldown({ input: solving, platform: "node", logLevel: "warn" });
await bundle.write({ file, format: "esm" });
await bundle.close();
const { solve } = await import(pathToFileURL(file).href);
rmSync(between, { recursive: true });

const highs = await loadHighs();
for (const line of readFileSync(0, "utf8").trim().split("\n")) {
  const { model, start, gap } = JSON.parse(line);
  const { status, cost, bound } = solve(highs, model, { start, seconds: SECONDS, gapShare: gap }, () => {});
  console.log(JSON.stringify({ status, cost, bound }));
}
