/**
 * The season's solver on the phone, apart from the builds: fetched when first asked for, then kept. Its files change with
 * the solver's version only, and of each kind the newest stays.
 */
const FILES = /^\/assets\/(solver-worker|highs)-[^/]+$/;
const CACHE = "evenfall-solver";

const kindOf = (address: string): string | undefined => FILES.exec(new URL(address).pathname)?.[1];

export const isSolver = (address: string): boolean => kindOf(address) !== undefined;

/** From the phone, or from the network and then kept. */
export async function solverFile(
  request: Request,
  among: CacheStorage = caches,
  ask: (request: Request) => Promise<Response> = fetch,
): Promise<Response> {
  const cache = await among.open(CACHE);
  const kept = await cache.match(request.url);
  if (kept) return kept;
  const answer = await ask(request);
  if (answer.ok) await keep(cache, request.url, answer.clone());
  return answer;
}

async function keep(cache: Cache, address: string, answer: Response): Promise<void> {
  await cache.put(address, answer);
  const others = (await cache.keys()).map(({ url }) => url);
  const former = others.filter((url) => url !== address && kindOf(url) === kindOf(address));
  await Promise.all(former.map((url) => cache.delete(url)));
}
