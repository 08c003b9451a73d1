/** Chance that a seed decides: the small generator "sfc32" of C. Doty-Humphrey's PractRand, 128 bits of state. */

export function chanceOf(seed: string): () => number {
  const state = [0x9e3779b9, 0x243f6a88, 0xb7e15162, 1] as [number, number, number, number];
  for (let at = 0; at < seed.length; at++)
    state[at % 3] = Math.imul((state[at % 3] ?? 0) ^ seed.charCodeAt(at), 597399067);
  const next = () => {
    let [a, b, c, d] = state;
    const sum = (((a + b) | 0) + d) | 0;
    d = (d + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (((c << 21) | (c >>> 11)) + sum) | 0;
    [state[0], state[1], state[2], state[3]] = [a, b, c, d];
    return (sum >>> 0) / 2 ** 32;
  };
  for (let round = 0; round < 12; round++) next();
  return next;
}
