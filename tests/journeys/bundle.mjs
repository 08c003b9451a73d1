// node bundle.mjs <modules folder> <entry> <output>: one self-contained script, global __journey.
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const [modules, input, file] = process.argv.slice(2);
const { rolldown } = await import(pathToFileURL(join(modules, "rolldown/dist/index.mjs")).href);
const bundle = await rolldown({ input, resolve: { modules: [modules] }, logLevel: "warn" });
await bundle.write({ file, format: "iife", name: "__journey" });
await bundle.close();
