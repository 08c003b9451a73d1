// node bundle.mjs <output>: the phones' half of the simulation as one module for Node.
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const here = fileURLToPath(new URL(".", import.meta.url));
const frontend = join(here, "../..");
const { rolldown } = await import(pathToFileURL(join(frontend, "node_modules/rolldown/dist/index.mjs")).href);
// Lives are short: pages as long as the app's would never be full, nor would a whole book be fetched in parts.
const SHORTER = {
  "sync/round.ts": ["PAGE = 1000", "PAGE = 11"],
  "sync/bootstrap.ts": ["PAGE = 2000", "PAGE = 7"],
};
const shorterPages = {
  name: "shorter-pages",
  transform(code, id) {
    const [, change] = Object.entries(SHORTER).find(([file]) => id.endsWith(file)) ?? [];
    if (!change) return undefined;
    if (!code.includes(change[0])) throw new Error(`${id} no longer says ${change[0]}`);
    return code.replace(change[0], change[1]);
  },
};
const bundle = await rolldown({
  plugins: [shorterPages],
  input: join(here, "main.ts"),
  platform: "node",
  logLevel: "warn",
  resolve: { alias: { dexie: join(here, "dexie.ts"), "@fixtures": join(frontend, "../fixtures") } },
});
await bundle.write({ file: process.argv[2], format: "esm", codeSplitting: false });
await bundle.close();
