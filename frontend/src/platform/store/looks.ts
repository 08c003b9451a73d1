/**
 * What was last shown of a book, for the next first paint: in local storage, which alone can be read before it. Any
 * write to the book's rows forgets it, whoever wrote, so that what is found there was worked out from what the book
 * held when it was last looked at. A browser killed within the second may bring it back, so it is shown with its moment.
 */
import { type ReadonlySignal, signal } from "@preact/signals";
import { recall, remember } from "../session/memory";

const KEY = "evenfall.look";
/** Another build may work out something else: this script's name changes with all it leads to, the engine's files too. */
const BUILD = import.meta.url;

const times = signal(0);
/** Counts the writes that made a kept look old. */
export const forgotten: ReadonlySignal<number> = times;

interface Kept {
  book: string;
  build: string;
  look: unknown;
}

/** What was kept of this book by this very build. */
export function lookOf(book: string): unknown {
  const kept = recall(KEY) as Partial<Kept> | undefined;
  return kept?.book === book && kept.build === BUILD ? kept.look : undefined;
}

export function keepLook(book: string, look: unknown): void {
  remember(KEY, { book, build: BUILD, look } satisfies Kept);
}

export function forgetLook(): void {
  remember(KEY, undefined);
  times.value += 1;
}
