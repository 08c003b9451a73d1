import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";
import { engineBundle } from "./tools/engine-bundle.ts";
import { firstLook } from "./tools/first-look.ts";

// The server that answers what is the API's, while developing: `manage.py dev` says which.
const behind = process.env["EVENFALL_BEHIND"] ?? "http://127.0.0.1:8000";
const root = fileURLToPath(new URL("..", import.meta.url));

/** A feature's own file is named by the feature, syncing by its room: sizes are told by these names (tests/bench/sizes.py). */
const FEATURE = /features\/(\w+)\/screens\/index/;
const nameOf = (file: string | null | undefined, name: string) =>
  FEATURE.exec(file ?? "")?.[1] ?? (name === "running" ? "sync" : name);

/**
 * Tests that need modules to themselves: they put something in the place of one, or keep what the whole process has one of.
 * All others share what was read once: to read it anew for each file took twice as long as the tests.
 */
const APART = /vi\.(mock|doMock|stubGlobal|resetModules)|indexedDB|Dexie|@vitest-environment/;
const src = fileURLToPath(new URL("src/", import.meta.url));
const apart = readdirSync(src, { recursive: true, encoding: "utf8" })
  .filter((file) => file.endsWith(".test.ts"))
  .filter((file) => file.startsWith("platform") || APART.test(readFileSync(src + file, "utf8")))
  .map((file) => `src/${file.replaceAll("\\", "/")}`);

/** Tests of one kind, in the environment they need. */
const tests = (
  name: string,
  environment: string,
  isolate: boolean,
  include: string[],
  exclude: string[] = [],
) => ({
  extends: true as const,
  test: {
    name,
    environment,
    isolate,
    pool: "threads" as const, // a process for each file costs more to begin
    include,
    exclude,
    setupFiles: ["./tools/test-setup.ts"],
    restoreMocks: true,
    // A crowded machine is slow without being wrong.
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});

export default defineConfig({
  base: "/",
  plugins: [engineBundle(root), firstLook()],
  resolve: {
    alias: [
      { find: "@fixtures", replacement: `${root}fixtures` },
      // Its build for browsers of today: a proper module, without the wrapper around the older one.
      { find: /^dexie$/, replacement: "dexie/dist/modern/dexie.mjs" },
    ],
  },
  worker: { format: "es", plugins: () => [engineBundle(root)] },
  build: {
    outDir: "dist",
    emptyOutDir: true,
    target: "es2022",
    // Nothing inlined as data: addresses, which the content security policy does not allow.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: {
      output: {
        chunkFileNames: ({ facadeModuleId, name }) => `assets/${nameOf(facadeModuleId, name)}-[hash].js`,
        assetFileNames: ({ originalFileNames }) =>
          `assets/${nameOf(originalFileNames[0], "[name]")}-[hash][extname]`,
        // Everything the first look needs in one file: each file more is another way through the service worker.
        // Books (the tables, Dexie) are fetched after the first paint, in one file as well.
        codeSplitting: {
          groups: [
            { name: "first", test: /src\/app\/main\.tsx$/, priority: 2 },
            { name: "book", test: /src\/platform\/store\/book\.ts$/, priority: 1 },
          ],
        },
      },
    },
  },
  server: {
    fs: { allow: [root] },
    proxy: { "/api": behind, "/manifest.json": behind },
  },
  test: {
    // What draws (.tsx) is given a page; making one takes longer than most tests of models do. Those few of the others
    // that ask for one say so in their first line.
    projects: [
      tests("pages", "happy-dom", true, ["src/**/*.test.tsx"]),
      tests("apart", "node", true, apart),
      tests("models", "node", false, ["src/**/*.test.ts"], apart),
    ],
  },
});
