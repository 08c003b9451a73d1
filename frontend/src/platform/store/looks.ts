/**
 * What was last shown of a book, for the next first paint: in local storage, which alone can be read before it. Any
 * write to the book's rows forgets it, whoever wrote, so that what is found there was worked out from what the book
 * held when it was last looked at. A browser killed within the second may bring it back, so it is shown with its moment.
 */
import { type ReadonlySignal, signal } from "@preact/signals";
import { recall, remember, remembered } from "../session/memory";

const KEY = "evenfall.look";
/** Another build may work out something else: this script's name changes with all it leads to, the engine's files too. */
export const BUILD = import.meta.url.split("#")[0] as string;

const times = signal(0);
/** Counts the writes that made a kept look old. */
export const forgotten: ReadonlySignal<number> = times;

export interface KeptLook {
  book: string;
  look: unknown;
}

const latest = signal<KeptLook | undefined>(undefined);
/** The look kept last by this page, until it is forgotten. */
export const keptLook: ReadonlySignal<KeptLook | undefined> = latest;

/** A kept look drawn for a day, for the script that runs before the app (`app/first-frame`, which reads it). */
export interface Frame {
  book: string;
  /** Not shown from this moment on (ms since 1970). */
  until: number | null;
  html: string;
}

const FRAME = `evenfall.frame.`;

export function keepFrame(day: string, frame: Frame): void {
  const { language } = navigator;
  remember(FRAME + day, {
    ...frame,
    build: BUILD,
    language,
    offset: new Date(`${day}T12:00`).getTimezoneOffset(),
  });
}

function forgetFrames(): void {
  for (const key of remembered()) if (key.startsWith(FRAME)) remember(key, undefined);
}

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
  forgetFrames();
  remember(KEY, { book, build: BUILD, look } satisfies Kept);
  latest.value = { book, look };
}

export function forgetLook(): void {
  remember(KEY, undefined);
  forgetFrames();
  latest.value = undefined;
  times.value += 1;
}
