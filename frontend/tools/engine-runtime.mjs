/** The engine on MicroPython in Node: the very files a phone gets, compiled. For the command, for parity and for the phone's own tests. */
import { dirname, resolve } from "node:path";
import { loadMicroPython } from "@micropython/micropython-webassembly-pyscript/micropython.mjs";
import { compiled } from "./engine-files.mjs";

const root = resolve(import.meta.dirname, "../..");
const HEAP_BYTES = 16 * 1024 * 1024;

/** Puts the engine's compiled files into MicroPython's memory file system. */
function write(fs) {
  for (const [path, bytes] of compiled(root)) {
    fs.mkdirTree(`/${dirname(path)}`);
    fs.writeFile(`/${path}`, bytes);
  }
}

/** Starts it; the engine's door: a call's name and its arguments as JSON, the answer as JSON. */
export async function start() {
  const python = await loadMicroPython({
    heapsize: HEAP_BYTES,
    stdout: (line) => process.stderr.write(`${line}\n`),
  });
  write(python.FS);
  python.runPython("import sys\nsys.path.insert(0, '/')\nfrom lawn.engine.door import call_json");
  return python.globals.get("call_json");
}
