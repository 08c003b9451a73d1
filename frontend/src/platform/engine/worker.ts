/**
 * The engine's worker: MicroPython with the very Python files the server runs, compiled. Loaded after the
 * first paint; answers calls by name, JSON text in and out.
 */

import engineFiles from "virtual:engine-files";
import mpCode from "@micropython/micropython-webassembly-pyscript/micropython.mjs?url";
import mpWasm from "@micropython/micropython-webassembly-pyscript/micropython.wasm?url";
import { expose } from "comlink";

interface MicroPython {
  FS: {
    mkdirTree?(path: string): void;
    mkdir(path: string): void;
    writeFile(path: string, bytes: Uint8Array): void;
  };
  runPython(code: string): unknown;
  globals: { get(name: string): unknown };
}

type CallJson = (name: string, argsJson: string) => string;

/** Room for the tables of a grid over past passes; the default of 1 MB is tight. */
const HEAP_BYTES = 16 * 1024 * 1024;
const PYSTACK_WORDS = 32 * 1024;
const NEW_LINE = 10;

async function load(): Promise<CallJson> {
  const [module, files] = await Promise.all([
    import(/* @vite-ignore */ mpCode),
    fetch(engineFiles).then((response) => response.arrayBuffer()),
  ]);
  const python = (await module.loadMicroPython({
    url: new URL(mpWasm, self.location.href).href,
    heapsize: HEAP_BYTES,
    pystack: PYSTACK_WORDS,
  })) as MicroPython;
  for (const [path, bytes] of unpacked(files)) write(python, path, bytes);
  python.runPython("import sys\nsys.path.insert(0, '/')\nfrom lawn.engine.door import call_json");
  return python.globals.get("call_json") as CallJson;
}

/** A line of JSON with each path and length, then the files' bytes (frontend/tools/engine-files.mjs). */
function unpacked(packed: ArrayBuffer): [path: string, bytes: Uint8Array][] {
  const all = new Uint8Array(packed);
  let at = all.indexOf(NEW_LINE) + 1;
  const list = JSON.parse(new TextDecoder().decode(all.subarray(0, at))) as [string, number][];
  return list.map(([path, length]) => {
    at += length;
    return [path, all.subarray(at - length, at)];
  });
}

function write(python: MicroPython, path: string, bytes: Uint8Array): void {
  const folders = path.split("/").slice(0, -1);
  for (let depth = 1; depth <= folders.length; depth++) {
    try {
      python.FS.mkdir(`/${folders.slice(0, depth).join("/")}`);
    } catch {
      // The folder is there already.
    }
  }
  python.FS.writeFile(`/${path}`, bytes);
}

const ready = load();
// A failed load is answered call by call; without this it would also count as unhandled.
ready.catch(() => undefined);

export const api = {
  /** Resolves when the engine can answer. */
  ready: async (): Promise<true> => {
    await ready;
    return true;
  },
  /** One call into the engine; the answer is JSON text, an error of the engine included. */
  callJson: async (name: string, argsJson: string): Promise<string> => (await ready)(name, argsJson),
};

export type EngineApi = typeof api;

expose(api);
