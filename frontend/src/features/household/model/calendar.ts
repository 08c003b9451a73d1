/** One's own calendar link: whether it is on, made or made anew, turned off. */
import { computed, signal } from "@preact/signals";
import { createRemote, type RemoteParts } from "../../../platform/sync/remote";

export interface KeptLink {
  on: boolean;
  made_at: string | null;
}

export function createCalendar(parts: RemoteParts) {
  const remote = createRemote(parts, "calendar", (answer: KeptLink) => answer);
  const made = signal<{ root: string | undefined; link: string } | undefined>(undefined);
  return {
    ...remote,
    /** The link just made: it is shown once and stored nowhere. */
    made: computed(() => (made.value && made.value.root === parts.root() ? made.value.link : undefined)),
    async make(): Promise<void> {
      const root = parts.root();
      const done = await remote.act<{ link: string }>("new", "calendar");
      if (done) made.value = { root, link: done.answer.link };
    },
    async turnOff(): Promise<void> {
      if (await remote.act("off", "calendar/off")) made.value = undefined;
    },
  };
}
