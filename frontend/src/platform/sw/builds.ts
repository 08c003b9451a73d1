/**
 * Which builds' hashed assets stay on the phone (S18): the present one's and the two before, so that a page of an
 * older build that is still open finds its lazy screens without a network too. No I/O.
 */

/** Addresses of hashed assets, a list a build, newest first. */
export type Builds = readonly (readonly string[])[];

const MOST_BUILDS = 3;

export const isHashed = (address: string): boolean =>
  new URL(address, "https://any.example").pathname.startsWith("/assets/");

/**
 * The builds to keep once the build made of `present` is the active one. `noted` is what was noted the last time;
 * what is cached beside that came from a build that noted nothing, and counts as the one before.
 */
export function buildsKept(
  present: readonly string[],
  noted: Builds,
  cached: readonly string[],
): readonly string[][] {
  const mine = present.filter(isHashed).sort();
  const known = new Set([...mine, ...noted.flat()]);
  const unnoted =
    noted.length > 0 ? [] : cached.filter((address) => isHashed(address) && !known.has(address));
  const former = [unnoted, ...noted].filter((build) => build.length > 0 && build.join() !== mine.join());
  return [mine, ...former.map((build) => [...build])].slice(0, MOST_BUILDS);
}

/** What of the cache goes: everything neither the present build nor one of those kept has need of. */
export function toForget(cached: readonly string[], present: Iterable<string>, kept: Builds): string[] {
  const needed = new Set([...present, ...kept.flat()]);
  return cached.filter((address) => !needed.has(address));
}
