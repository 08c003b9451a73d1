/**
 * The turns of one tab at work that one tab of a book does at a time (S16): it waits for the lead, tries at once, on
 * becoming visible, on `online`, and after each pause the last try asked for, for ever (S17). Entries and photos each
 * have their own (P8).
 */
import { CAP_MS } from "./backoff";
import type { World } from "./world";

export interface Turns {
  /** Begins; resolves after this tab's first try, which waits until it leads. */
  start(): Promise<void>;
  stop(): void;
  /** Try now. Resolves when the try is over; another tab may be the one that leads. */
  kick(): Promise<void>;
}

/** What goes on besides while a tab leads may ask for tries. */
export interface Turn {
  kick(): Promise<void>;
  /** Brings the next try forward to so many milliseconds from now; never puts it off. */
  sooner(ms: number): void;
  /** Resolves when no try is under way. */
  quiet(): Promise<void>;
}

/**
 * `oneTry` gets a signal that ends with the tab's time as the leader, and resolves with the pause in ms until the next.
 * `begin` is called each time the tab comes to lead, before the first try; what it returns ends what it began.
 */
export function createTurns(
  world: World,
  name: string,
  oneTry: (signal: AbortSignal) => Promise<number>,
  begin: (turn: Turn) => (() => void)[],
): Turns {
  const stopping = new AbortController();
  /** This tab's present time as the leader; over when it stops or another tab leads. */
  let term = new AbortController();
  const timer = createTimer(world, kick);
  const turn: Turn = { kick, sooner: timer.sooner, quiet: async () => running };
  let endings: (() => void)[] = [];
  let leading = false;
  let running: Promise<void> | undefined;
  let again = false;

  async function kick(): Promise<void> {
    if (!leading) return;
    again = running !== undefined;
    running ??= tries().finally(() => {
      running = undefined;
    });
    await running;
  }

  /** One try, and another when something asked for one meanwhile. Whatever goes wrong, there is a next. */
  async function tries(): Promise<void> {
    do {
      again = false;
      timer.clear();
      const pause = await oneTry(term.signal).catch(() => CAP_MS);
      if (leading) timer.sooner(pause);
    } while (again && leading);
  }

  async function start(): Promise<void> {
    const release = await world.lead(name, stopping.signal, lost).catch(() => undefined);
    if (!release) return;
    if (stopping.signal.aborted) return release();
    leading = true;
    term = new AbortController();
    endings = [release, world.onWake(kick), ...begin(turn)];
    await kick();
  }

  /** Another tab leads now: this one does nothing more until it is its turn again. */
  function lost(): void {
    if (stopping.signal.aborted) return;
    endTerm();
    void start();
  }

  function endTerm(): void {
    leading = false;
    term.abort();
    timer.clear();
    for (const end of endings) end();
    endings = [];
  }

  function stop(): void {
    stopping.abort();
    endTerm();
  }

  return { start, stop, kick };
}

/** One timer, which can be brought forward but not put off. */
function createTimer(world: World, work: () => unknown) {
  let cancel: () => void = () => undefined;
  let dueAt = Number.POSITIVE_INFINITY;
  function clear(): void {
    cancel();
    dueAt = Number.POSITIVE_INFINITY;
  }
  function sooner(ms: number): void {
    // A timer that is overdue was set before the clock jumped ahead (F27): it says nothing about now.
    const jumped = dueAt < world.now();
    if (!jumped && world.now() + ms >= dueAt) return;
    cancel();
    dueAt = world.now() + ms;
    cancel = world.after(ms, work);
  }
  return { clear, sooner };
}
