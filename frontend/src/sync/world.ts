/** Clock, chance and the page's own events, so that tests can hand in theirs. */

export interface World {
  now(): number;
  /** 0 to 1. */
  chance(): number;
  /** Calls once after a pause; returns what cancels it. */
  after(ms: number, work: () => unknown): () => void;
  /** Calls whenever the page becomes visible or the phone thinks it is online; returns what ends that. */
  onWake(work: () => unknown): () => void;
  visible(): boolean;
  /** Holds leadership among the tabs of this book until released; the promise is there once it leads. */
  lead(name: string, signal: AbortSignal): Promise<() => void>;
}

export const browserWorld: World = {
  now: () => Date.now(),
  chance: () => Math.random(),
  after(ms, work) {
    const timer = setTimeout(work, ms);
    return () => clearTimeout(timer);
  },
  onWake(work) {
    const seen = () => document.visibilityState === "visible" && work();
    const online = () => void work();
    document.addEventListener("visibilitychange", seen);
    window.addEventListener("online", online);
    return () => {
      document.removeEventListener("visibilitychange", seen);
      window.removeEventListener("online", online);
    };
  },
  visible: () => document.visibilityState === "visible",
  lead: leadByWebLock,
};

/**
 * One tab syncs (S16). Without Web Locks every tab does, which is wasteful but safe: an op applies
 * once however often it arrives (P2). Not here yet: the heartbeat, and stealing the lock of a tab
 * frozen for 30 s (S16, F40); until then a frozen leader's book waits for the other tab's next start.
 */
function leadByWebLock(name: string, signal: AbortSignal): Promise<() => void> {
  if (!globalThis.navigator?.locks) return Promise.resolve(() => undefined);
  return new Promise((leads, fails) => {
    navigator.locks
      .request(`sync:${name}`, { signal }, () => new Promise<void>((release) => leads(release)))
      .catch(fails);
  });
}
