/**
 * Vite plugin: the Python engine as one JSON asset.
 *
 * The phone runs the very files the server imports. They are gathered here, unchanged, into
 * {"lawn/__init__.py": "", "lawn/engine/door.py": "...", ...}; the worker writes them into
 * MicroPython's file system. Imported as `virtual:engine-files`, which gives the asset's address.
 */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join, relative } from "node:path";
import type { Plugin } from "vite";

const NAME = "virtual:engine-files";
const RESOLVED = `\0${NAME}`;

/** Every .py file under the engine folder, path relative to the project's root, sorted. */
export function engineFiles(root: string): Record<string, string> {
  const files: Record<string, string> = { "lawn/__init__.py": "" };
  for (const path of pythonFiles(join(root, "lawn", "engine"))) {
    files[relative(root, path).replaceAll("\\", "/")] = readFileSync(path, "utf8");
  }
  return files;
}

function pythonFiles(folder: string): string[] {
  const found: string[] = [];
  for (const name of readdirSync(folder).sort()) {
    const path = join(folder, name);
    if (statSync(path).isDirectory()) found.push(...pythonFiles(path));
    else if (name.endsWith(".py")) found.push(path);
  }
  return found;
}

export function engineBundle(root: string): Plugin {
  let building = false;
  return {
    name: "engine-bundle",
    configResolved(config) {
      building = config.command === "build";
    },
    resolveId(id) {
      return id === NAME ? RESOLVED : null;
    },
    load(id) {
      if (id !== RESOLVED) return null;
      if (!building) return 'export default "/@engine-files.json";';
      const source = JSON.stringify(engineFiles(root));
      const reference = this.emitFile({ type: "asset", name: "engine.json", source });
      return `export default import.meta.ROLLUP_FILE_URL_${reference};`;
    },
    configureServer(server) {
      server.middlewares.use("/@engine-files.json", (_request, response) => {
        response.setHeader("Content-Type", "application/json");
        response.end(JSON.stringify(engineFiles(root)));
      });
    },
  };
}
