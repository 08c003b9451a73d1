/**
 * Builds the empty page of the bench into the folder named, by the steps that build the app:
 *   node tools/empty/build.mjs FOLDER
 */
import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { build } from "vite";

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const [folder] = process.argv.slice(2);
if (!folder) throw new Error("name the folder to build into");

await build({
  root: here("."),
  configFile: false,
  logLevel: "warn",
  base: "/",
  build: {
    outDir: folder,
    emptyOutDir: true,
    target: "es2022",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
});
for (const step of ["../build-worker.mjs", "../compress.mjs"]) {
  execFileSync(process.execPath, [here(step), folder], { stdio: ["ignore", "ignore", "inherit"] });
}
