import { fileURLToPath } from "node:url";
import type { Plugin } from "vite";
import { defineConfig } from "vitest/config";
import { engineBundle } from "./tools/engine-bundle.ts";

const root = fileURLToPath(new URL("..", import.meta.url));

/** The first paint waits for the entry script, which sets the theme: no flash of the other one. */
function blockFirstPaint(): Plugin {
  return {
    name: "block-first-paint",
    transformIndexHtml: {
      order: "post",
      handler: (html) => html.replace('<script type="module"', '<script type="module" blocking="render"'),
    },
  };
}

export default defineConfig({
  base: "/",
  plugins: [engineBundle(root), blockFirstPaint()],
  resolve: { alias: { "@fixtures": `${root}fixtures` } },
  worker: { format: "es", plugins: () => [engineBundle(root)] },
  build: {
    outDir: "dist",
    emptyOutDir: true,
    target: "es2022",
    // Nothing inlined as data: addresses, which the content security policy does not allow.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
  server: {
    fs: { allow: [root] },
    proxy: { "/api": "http://127.0.0.1:8000", "/manifest.json": "http://127.0.0.1:8000" },
  },
  test: {
    environment: "happy-dom",
    include: ["src/**/*.test.{ts,tsx}"],
    setupFiles: ["./tools/test-setup.ts"],
    restoreMocks: true,
  },
});
