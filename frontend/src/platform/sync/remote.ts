/** A list that only the server has (phones, invitations, what is held): asked for by a page, kept while it is of use. */
import { batch, computed, type ReadonlySignal, signal } from "@preact/signals";
import type { Failure, Outcome } from "./http";

export type Ask = <V>(method: "GET" | "POST", path: string, body?: unknown) => Promise<Outcome<V>>;

export interface RemoteParts {
  request: Ask;
  /** Where these routes begin, such as households/<id>; undefined while nobody is signed in. */
  root: () => string | undefined;
}

/** What went wrong, and with which thing of the list; "" is the list itself. */
export interface Problem {
  of: string;
  says: string;
  /** No answer came: the normal case away from the house, and no fault. */
  noSignal?: true;
}

export interface Remote<V> {
  value: ReadonlySignal<V | undefined>;
  /** The thing that is being changed; "" while the list is asked for; undefined at rest. */
  busy: ReadonlySignal<string | undefined>;
  problem: ReadonlySignal<Problem | undefined>;
  look(): Promise<void>;
  /** Asks the server for a change; the list is read anew after it. What the server answered, if it did it. */
  act<A>(of: string, path: string, body?: object): Promise<{ answer: A } | undefined>;
}

const NO_SIGNAL =
  "No answer from the server: this needs signal. What is in the book stays as it is; try again later.";

const UNREADABLE = "The server’s answer could not be read. Update the app and try again.";

/** A request that broke before any answer is told like one that got none. */
const unanswered = (): { ok: false } & Failure => ({
  ok: false,
  status: 0,
  code: "no_answer",
  message: NO_SIGNAL,
});

export function sayFailure({ status, code, message }: Failure): string {
  if (status === 401) return "The server wants you to sign in again first.";
  return code === "no_answer" ? NO_SIGNAL : message;
}

/** A failure with one thing of a list, as a page shows it. */
function problemOf(of: string, failure: Failure): Problem {
  const says = sayFailure(failure);
  return failure.status === 0 ? { of, says, noSignal: true } : { of, says };
}

/** `list` is where the list, or the page of it now looked at, is read; `read` takes it out of the answer. */
export function createRemote<V, A = unknown>(
  { request, root }: RemoteParts,
  list: string | (() => string),
  read: (answer: A) => V,
): Remote<V> {
  const kept = signal<{ root: string; value: V } | undefined>(undefined);
  const busy = signal<string | undefined>(undefined);
  const problem = signal<Problem | undefined>(undefined);

  let last: Promise<unknown> = Promise.resolve();

  /** One after another: a tap that comes while the list is being asked for waits for its turn, and is not lost. */
  function asked<B>(of: string, method: "GET" | "POST", path: string, body?: object) {
    const from = root();
    const mine = last.then(() => askedNow<B>(from, of, method, path, body));
    // One that breaks must not keep all later ones waiting behind it.
    last = mine.catch(() => undefined);
    return mine;
  }

  async function askedNow<B>(
    from: string | undefined,
    of: string,
    method: "GET" | "POST",
    path: string,
    body?: object,
  ) {
    if (!from) return undefined;
    batch(() => {
      busy.value = of;
      problem.value = undefined;
    });
    const outcome = await request<B>(method, `${from}/${path}`, body).catch(unanswered);
    batch(() => {
      busy.value = undefined;
      if (!outcome.ok) problem.value = problemOf(of, outcome);
    });
    return outcome.ok && root() === from ? { from, answer: outcome.value } : undefined;
  }

  async function look(): Promise<void> {
    const found = await asked<A>("", "GET", typeof list === "string" ? list : list());
    if (!found) return;
    try {
      kept.value = { root: found.from, value: read(found.answer) };
    } catch {
      problem.value = { of: "", says: UNREADABLE };
    }
  }

  return {
    // Another household's list is never shown, however late its answer came.
    value: computed(() => (kept.value && kept.value.root === root() ? kept.value.value : undefined)),
    busy,
    problem,
    look,
    async act<B>(of: string, path: string, body: object = {}) {
      if (busy.value) return undefined;
      busy.value = of;
      try {
        const done = await asked<B>(of, "POST", path, body);
        if (!done) return undefined;
        await look();
        return { answer: done.answer };
      } finally {
        busy.value = undefined;
      }
    },
  };
}
