/** Syncing for the book that is open: started after the first paint, stopped when it is closed. */
import { computed, effect, type ReadonlySignal, signal } from "@preact/signals";
import { createPhotoQueue, type PhotoQueue } from "../photos/queue";
import { confirmSession, settleSignOut, signIns } from "../session/session";
import { householdOf, openedBook } from "../store";
import type { Book } from "../store/book";
import { createSync, type Sync } from "./index";
import type { Turns } from "./turns";
import { createWeather } from "./weather";

/** Entries, photos and weather go by turns of their own (P8). */
const running = signal<{ sync: Sync; photos: PhotoQueue; weather: Turns } | null>(null);

/** Tries to sync now: a tap on the standing chip. */
export function syncNow(): void {
  const now = running.peek();
  void now?.sync.kick();
  void now?.photos.kick();
  void now?.weather.kick();
}

export const syncing: ReadonlySignal<Sync | null> = computed(() => running.value?.sync ?? null);

/** Syncs whatever book is open, from now on; returns what ends that. */
export function startSync(): () => void {
  void settleSignOut();
  const endKicks = effect(() => {
    if (signIns.value > 0) syncNow();
  });
  const endSyncs = effect(() => {
    const book = openedBook.value;
    return book ? syncBook(book) : undefined;
  });
  return () => {
    endKicks();
    endSyncs();
  };
}

function syncBook(book: Book): () => void {
  const parts = { book, household: householdOf(book.name), confirm: confirmSession };
  const sync = createSync(parts);
  const photos = createPhotoQueue(parts);
  const weather = createWeather(parts);
  running.value = { sync, photos, weather };
  void sync.start();
  void photos.start();
  void weather.start();
  return () => {
    sync.stop();
    photos.stop();
    weather.stop();
    running.value = null;
  };
}
