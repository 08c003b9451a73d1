import { afterEach, describe, expect, it, vi } from "vitest";
import { isSolver, solverFile } from "./solver";

const at = (path: string) => `https://book.example${path}`;
const WASM = at("/assets/highs-a1.wasm");

/** A browser's caches, as far as they are used. */
function caches(): CacheStorage {
  const held = new Map<string, Response>();
  const cache = {
    match: async (url: string) => held.get(url)?.clone(),
    put: async (url: string, answer: Response) => void held.set(url, answer),
    keys: async () => [...held.keys()].map((url) => new Request(url)),
    delete: async (url: string) => held.delete(url),
  };
  return { open: async () => cache } as unknown as CacheStorage;
}

const net = (answers: Record<string, Response>) =>
  vi.stubGlobal("fetch", async ({ url }: Request) => {
    const answer = answers[url];
    if (!answer) throw new TypeError("no network");
    return answer.clone();
  });

const read = async (url: string, among: CacheStorage) => (await solverFile(new Request(url), among)).text();

afterEach(() => void vi.unstubAllGlobals());

describe("the season's solver on the phone", () => {
  it("is two files among the built ones", () => {
    expect(isSolver(WASM)).toBe(true);
    expect(isSolver(at("/assets/solver-worker-Zz_9.js"))).toBe(true);
    expect(isSolver(at("/assets/worker-Zz_9.js"))).toBe(false);
    expect(isSolver(at("/api/v1/assets/highs-a1.wasm"))).toBe(false);
  });

  it("once read, is there without a network", async () => {
    const among = caches();
    net({ [WASM]: new Response("solver") });
    expect(await read(WASM, among)).toBe("solver");
    net({});
    expect(await read(WASM, among)).toBe("solver");
  });

  it("an answer that is none is not kept", async () => {
    const among = caches();
    net({ [WASM]: new Response("busy", { status: 503 }) });
    await read(WASM, among);
    net({ [WASM]: new Response("solver") });
    expect(await read(WASM, among)).toBe("solver");
  });

  it("a new version takes the place of the old, and leaves the other file alone", async () => {
    const among = caches();
    const [fresh, script] = [at("/assets/highs-b2.wasm"), at("/assets/solver-worker-s.js")];
    net({ [WASM]: new Response("old"), [fresh]: new Response("new"), [script]: new Response("script") });
    for (const url of [WASM, script, fresh]) await read(url, among);
    net({});
    expect(await read(fresh, among)).toBe("new");
    expect(await read(script, among)).toBe("script");
    await expect(read(WASM, among)).rejects.toThrow("no network");
  });
});
