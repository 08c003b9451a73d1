/**
 * What every test file begins with. happy-dom has no IndexedDB: each file gets an empty one of its own. Properties are
 * tried with the same examples at every run (`SEARCH=1` draws others), and waiting is patient: only a test that fails
 * waits so long, and on a crowded machine a second is not long.
 */
import "fake-indexeddb/auto";
import fc from "fast-check";
import { expect, vi } from "vitest";
import "../src/app/kinds";
import { readBy } from "../src/forms/amount";
import { waitBy } from "../src/records/rest";
import { takeEntries } from "../src/ui/parts/way-back";

const PATIENCE_MS = 15_000;

if (!process.env["SEARCH"]) fc.configureGlobal({ seed: 20_261_125 });

// What is typed with a unit is read by the engine itself, which starts where a test first types one: most never do.
readBy(async (args) => (await import("../src/platform/engine/real-engine")).realEngine("units.read", args));

// No thumb shakes here: what rests after a record, or keeps still under a thumb, is over at once, unless a test waits.
waitBy((over) => {
  over();
  return () => {};
});

// The test browser's history goes nowhere by itself; what is tried with entries brings its own.
takeEntries({ state: null, pushState() {}, replaceState() {}, go() {} });

const waitFor = vi.waitFor;
vi.waitFor = (look, how) =>
  waitFor(look, { timeout: PATIENCE_MS, ...(typeof how === "number" ? { timeout: how } : how) });

if (expect.getState().testPath?.endsWith(".tsx")) {
  const { configure } = await import("@testing-library/preact");
  configure({ asyncUtilTimeout: PATIENCE_MS });
}
