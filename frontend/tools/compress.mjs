/**
 * Last step of the build: a gzip and a brotli copy beside every file worth packing, which the
 * server hands out to browsers that take them. Packed once here, not at every request. The folder
 * of the build may be named; it is dist otherwise.
 */
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { extname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { brotliCompressSync, gzipSync } from "node:zlib";

const assets = join(process.argv[2] ?? fileURLToPath(new URL("../dist", import.meta.url)), "assets");
const PACKED = new Set([".js", ".mjs", ".css", ".json", ".wasm", ".bin", ".svg"]);
const SMALLEST_BYTES = 512;

for (const name of readdirSync(assets)) {
  const path = join(assets, name);
  if (!PACKED.has(extname(name))) continue;
  const content = readFileSync(path);
  if (content.length < SMALLEST_BYTES) continue;
  writeFileSync(`${path}.gz`, gzipSync(content, { level: 9 }));
  writeFileSync(`${path}.br`, brotliCompressSync(content));
}
