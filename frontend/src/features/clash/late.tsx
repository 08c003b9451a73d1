/** Clashes are looked for once the engine is started, by code that is no part of the first script. */
import { signal } from "@preact/signals";

const drawn = signal<typeof import("./screens/index") | undefined>(undefined);
const AGAIN_MS = 2000;

/** Reads the chunk; tried again until it could be read. */
export function startClashes(): Promise<unknown> {
  return import("./screens/index").then(
    (found) => {
      drawn.value = found;
    },
    () => setTimeout(startClashes, AGAIN_MS),
  );
}

export function LateClashLine() {
  const Line = drawn.value?.ClashLine;
  return Line ? <Line /> : null;
}

export function LateClashCards() {
  const Cards = drawn.value?.ClashCards;
  return Cards ? <Cards /> : null;
}
