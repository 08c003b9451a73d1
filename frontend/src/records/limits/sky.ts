/** The weather that rules are held against, once its code has come. */
import { type ReadonlySignal, signal } from "@preact/signals";
import type { CheckDay } from "./check";

export type Sky = ReadonlySignal<readonly CheckDay[] | undefined>;

/** Without it, or where its code cannot be fetched, no days: what is not known speaks against nothing. */
export function followed(weather: (() => Promise<Sky>) | undefined): ReadonlySignal<Sky | undefined> {
  const none = signal<readonly CheckDay[] | undefined>([]);
  const found = signal<Sky | undefined>(weather ? undefined : none);
  const keep = (days: Sky) => {
    found.value = days;
  };
  void weather?.().then(keep, () => keep(none));
  return found;
}
