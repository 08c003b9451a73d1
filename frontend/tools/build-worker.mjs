/**
 * The service worker, second step of the build: bundles src/platform/sw/serviceworker.ts into one classic
 * script and writes into it the list of everything the build made, so that the whole app is on the
 * phone after the first visit. The folder of the build may be named; it is dist otherwise.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "vite";
import { injectManifest } from "workbox-build";

const here = (path) => fileURLToPath(new URL(`../${path}`, import.meta.url));
const dist = process.argv[2] ?? here("dist");
const between = mkdtempSync(join(tmpdir(), "worker-"));

await build({
  root: here(""),
  configFile: false,
  logLevel: "warn",
  publicDir: false,
  define: { "process.env.NODE_ENV": JSON.stringify("production") },
  build: {
    outDir: between,
    emptyOutDir: true,
    target: "es2022",
    lib: {
      entry: here("src/platform/sw/serviceworker.ts"),
      formats: ["iife"],
      name: "serviceworker",
      fileName: () => "serviceworker.js",
    },
  },
});

const { count, size, warnings } = await injectManifest({
  swSrc: join(between, "serviceworker.js"),
  swDest: join(dist, "serviceworker.js"),
  globDirectory: dist,
  globPatterns: ["**/*.{html,js,mjs,css,wasm,bin,json,svg,png,ico,woff2,webmanifest}"],
  // The solver is kept when it is first asked for (src/platform/sw/solver.ts).
  globIgnores: ["serviceworker.js", "pictures/**", "assets/solver-worker-*", "assets/highs-*"],
  // Vite names assets by their content: no second revision to compare.
  dontCacheBustURLsMatching: /^assets\//,
  maximumFileSizeToCacheInBytes: 8 * 1024 * 1024,
  manifestTransforms: [
    // The shell is asked for as "/", which is what the server answers every page with.
    (entries) => ({
      manifest: entries.map((entry) => (entry.url === "index.html" ? { ...entry, url: "/" } : entry)),
      warnings: [],
    }),
  ],
});
rmSync(between, { recursive: true, force: true });
for (const warning of warnings) console.warn(warning);
console.log(
  `serviceworker.js keeps ${count} files, ${Math.round(size / 1024)} kB, for use without a network`,
);
