/**
 * One tab of a book syncs (S16). Who holds the browser's lock of that name leads, and says so every few seconds. A tab
 * in view that waits asks for the lead: a leader out of sight hands it over, because browsers slow its timers down. A
 * leader that says nothing for 30 s is frozen and its lock is taken (F40); it notices when it goes on. Every tab may
 * write at any time: numbers are given by the database, not by the leader (F39).
 *
 * Without Web Locks every tab syncs, which is wasteful but safe: an op applies once however often it arrives (P2).
 */

/** How often the leader says that it is there, and a waiting tab looks. */
export const BEAT_MS = 5_000;
/** A leader silent for so long is frozen. */
export const STALE_MS = 30_000;

/** Leads until the returned function is called; `lost` is called once when the lead went to another tab meanwhile. */
export type Lead = (name: string, signal: AbortSignal, lost?: () => void) => Promise<() => void>;

type Word = "beat" | "wanted";

/** What is said among the tabs of one book. */
export interface Channel {
  say(word: Word): void;
  hear(heard: (word: Word) => void): void;
  close(): void;
}

export interface LeaderParts {
  locks: Pick<LockManager, "request"> | undefined;
  channel(name: string): Channel;
  every(ms: number, work: () => void): () => void;
  visible(): boolean;
}

export function createLead(parts: LeaderParts): Lead {
  return (name, signal, lost = () => undefined) => {
    const { locks } = parts;
    if (!locks) return Promise.resolve(() => undefined);
    return new Promise((leads, fails) => {
      if (signal.aborted) return fails(signal.reason);
      const term = createTerm(parts, locks, name, lost);
      signal.addEventListener("abort", () => term.giveUp(), { once: true });
      term.begin(leads, fails);
    });
  };
}

/** One tab's wait for the lead and its time in it: over once it is given up, handed over or taken. */
function createTerm(
  parts: LeaderParts,
  locks: NonNullable<LeaderParts["locks"]>,
  name: string,
  lost: () => void,
) {
  const channel = parts.channel(`evenfall-lead:${name}`);
  const queue = new AbortController();
  let state: "waiting" | "leading" | "over" = "waiting";
  let release: () => void = () => undefined;
  let endTicks: () => void = () => undefined;
  let silent = 0;

  function over(): void {
    state = "over";
    endTicks();
    channel.close();
    queue.abort();
    release();
  }

  function handOver(): void {
    over();
    lost();
  }

  function begin(leads: (end: () => void) => void, fails: (why: unknown) => void): void {
    const granted = () => held(leads);
    channel.hear((word) => {
      if (word === "beat") silent = 0;
      else if (state === "leading" && !parts.visible()) handOver();
    });
    endTicks = parts.every(BEAT_MS, () => tick(granted, fails));
    locks.request(`sync:${name}`, { signal: queue.signal }, granted).catch((why) => ended(why, fails));
    if (parts.visible()) channel.say("wanted");
  }

  /** Holds the lock for as long as the returned promise is open. */
  function held(leads: (end: () => void) => void): Promise<void> {
    return new Promise<void>((done) => {
      if (state !== "waiting") return done();
      state = "leading";
      release = done;
      channel.say("beat");
      leads(() => state === "leading" && over());
    });
  }

  function tick(granted: () => Promise<void>, fails: (why: unknown) => void): void {
    if (state === "leading") channel.say("beat");
    else look(granted, fails);
  }

  function look(granted: () => Promise<void>, fails: (why: unknown) => void): void {
    // Counted in looks of this tab itself, never by the clock: a tab that slept or was out of sight begins anew.
    silent = parts.visible() ? silent + 1 : 0;
    if (!parts.visible()) return;
    channel.say("wanted");
    if (silent * BEAT_MS < STALE_MS) return;
    silent = 0;
    locks.request(`sync:${name}`, { steal: true }, granted).catch((why) => ended(why, fails));
  }

  /** A request ended without being let go: given up, or the lock was taken from this tab. */
  function ended(why: unknown, fails: (why: unknown) => void): void {
    if (state === "leading") handOver();
    else if (state === "over") fails(why);
  }

  return { begin, giveUp: over };
}

/** The browser's own channel; without one nothing is heard, so nothing is handed over and a steal comes after 30 s. */
function browserChannel(name: string): Channel {
  const channel = new BroadcastChannel(name);
  return {
    say: (word) => channel.postMessage(word),
    hear: (heard) => {
      channel.onmessage = ({ data }) => heard(data as Word);
    },
    close: () => channel.close(),
  };
}

const NO_CHANNEL: Channel = { say: () => undefined, hear: () => undefined, close: () => undefined };

export const browserLead: Lead = createLead({
  // Without a channel no leader could be heard, and each would be taken for frozen.
  locks: typeof globalThis.BroadcastChannel === "function" ? globalThis.navigator?.locks : undefined,
  channel: (name) => (typeof globalThis.BroadcastChannel === "function" ? browserChannel(name) : NO_CHANNEL),
  every(ms, work) {
    const timer = setInterval(work, ms);
    return () => clearInterval(timer);
  },
  visible: () => document.visibilityState === "visible",
});
