// node bundle.mjs <output>: phone.ts as one self-contained script, global __bench.
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const here = fileURLToPath(new URL(".", import.meta.url));
const frontend = join(here, "../..");
const { rolldown } = await import(pathToFileURL(join(frontend, "node_modules/rolldown/dist/index.mjs")).href);
const bundle = await rolldown({
  input: join(here, "phone.ts"),
  platform: "browser",
  logLevel: "silent",
  transform: { define: { "import.meta.env": '{ MODE: "bench" }', "import.meta.url": '"bench"' } },
  resolve: {
    alias: {
      "@fixtures": join(frontend, "../fixtures"),
      dexie: join(frontend, "node_modules/dexie/dist/modern/dexie.mjs"),
    },
  },
});
await bundle.write({ file: process.argv[2], format: "iife", name: "__bench", minify: true });
await bundle.close();
