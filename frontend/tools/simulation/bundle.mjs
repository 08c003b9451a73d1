// node bundle.mjs <output>: the phones' half of the simulation as one module for Node.
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const here = fileURLToPath(new URL(".", import.meta.url));
const frontend = join(here, "../..");
const { rolldown } = await import(pathToFileURL(join(frontend, "node_modules/rolldown/dist/index.mjs")).href);
const bundle = await rolldown({
  input: join(here, "main.ts"),
  platform: "node",
  logLevel: "warn",
  resolve: { alias: { dexie: join(here, "dexie.ts"), "@fixtures": join(frontend, "../fixtures") } },
});
await bundle.write({ file: process.argv[2], format: "esm", codeSplitting: false });
await bundle.close();
