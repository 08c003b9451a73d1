/**
 * Vite plugin: the Python engine as one asset, which the worker unpacks into MicroPython's file system. Compiled in a
 * build; as written on the development server, where pages load anew when it changes. Imported as
 * `virtual:engine-files`, which gives the asset's address.
 */
import { join } from "node:path";
import type { Plugin } from "vite";
import { compiled, packed, sources } from "./engine-files.mjs";

const NAME = "virtual:engine-files";
const RESOLVED = `\0${NAME}`;
const SERVED = "/@engine-files";

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
      if (!building) return `export default "${SERVED}";`;
      const reference = this.emitFile({ type: "asset", name: "engine.bin", source: packed(compiled(root)) });
      return `export default import.meta.ROLLUP_FILE_URL_${reference};`;
    },
    configureServer(server) {
      server.middlewares.use(SERVED, (_request, response) => {
        response.end(packed(sources(root)));
      });
      const engine = join(root, "lawn", "engine");
      server.watcher.add(engine);
      server.watcher.on("all", (_event, path) => {
        if (path.startsWith(engine) && path.endsWith(".py")) server.ws.send({ type: "full-reload" });
      });
    },
  };
}
