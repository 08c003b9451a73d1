/**
 * Calls into the engine's worker. They queue until it is there, and it is started again when it
 * crashed: a call is asked once more of the new one, since calls have no effects.
 */
import { type Remote, wrap } from "comlink";
import { inTurn } from "../turns";
import { textOf } from "./text";
import type { AnswerTo, Args, CallName, EngineCall } from "./types";
import type { EngineApi } from "./worker";

/** What the client needs of a worker; tests hand in their own. */
export interface Engine {
  callJson(name: string, argsJson: string): Promise<string>;
  /** Resolves once it can answer; loading it is no part of a call's time. At once where there is none. */
  ready?(): Promise<unknown>;
  /** Called when the worker died. */
  onCrash(heard: () => void): void;
  stop(): void;
}

export interface EngineClient {
  call: EngineCall;
  start(): void;
}

const TRIES = 3;
/** No call of a sound book takes near as long on the slowest phone; one that does would hold up all others for ever. */
export const LONGEST_MS = 30_000;

/** More text than its heap of 16 MB can take in and work on: however the book came to be so large, it is not handed over. */
export const MOST_ASKED = 8_000_000;

/** The call the engine was at when its time was up; it is not asked again, the others are. */
class TooLong extends Error {}

interface Running {
  engine: Engine;
  /** Calls are answered one after another: each has its own time, from the moment the one before it is done. */
  turn: Promise<unknown>;
  /** Rejects when the engine is given up, for every call that still waits on it. */
  gone: Promise<never>;
  giveUp: (why: unknown) => void;
}

export function createEngineClient(spawn: () => Engine, longestMs = LONGEST_MS): EngineClient {
  let begin: () => void = () => undefined;
  const started = new Promise<void>((resolve) => {
    begin = resolve;
  });
  let current: Running | undefined;

  function running(): Running {
    current ??= run(spawn(), () => {
      current = undefined;
    });
    return current;
  }

  async function once(name: string, argsJson: string): Promise<string> {
    const now = running();
    const { engine, gone, giveUp } = now;
    const answer = engine.callJson(name, argsJson);
    const mine = within(answer, Promise.all([now.turn, engine.ready?.()]), longestMs);
    now.turn = mine.catch(() => undefined);
    try {
      return await Promise.race([mine, gone]);
    } catch (failure) {
      // A worker that threw instead of answering is not to be trusted with the next call.
      giveUp(failure instanceof TooLong ? new Error("the engine was stopped") : failure);
      throw failure;
    }
  }

  async function call<N extends CallName>(name: N, args: Args<N>): Promise<AnswerTo<N>> {
    await started;
    const argsJson = textOf(args);
    if (argsJson.length > MOST_ASKED) return { error: TOO_MUCH };
    for (let attempt = 1; ; attempt++) {
      try {
        return JSON.parse(await once(name, argsJson)) as AnswerTo<N>;
      } catch (failure) {
        if (failure instanceof TooLong) return { error: TOO_LONG };
        if (attempt >= TRIES) return { error: unavailable(failure) };
      }
    }
  }

  return { call, start: () => begin() };
}

const TOO_MUCH = {
  code: "engine_too_much",
  message: "There is more here than this phone can work out at once. Nothing you entered is lost.",
};

const TOO_LONG = {
  code: "engine_too_long",
  message: "This took too long to work out on this phone, so it was stopped. Nothing you entered is lost.",
};

/** The answer, or TooLong once its time is up; the time runs from when its turn has come. */
async function within(answer: Promise<string>, turn: Promise<unknown>, ms: number): Promise<string> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let over = false;
  const late = turn.then(
    () =>
      new Promise<never>((_, refuse) => {
        if (!over) timer = setTimeout(() => refuse(new TooLong("too long")), ms);
      }),
  );
  late.catch(() => undefined);
  try {
    return await Promise.race([answer, late]);
  } finally {
    over = true;
    clearTimeout(timer);
  }
}

function run(engine: Engine, ended: () => void): Running {
  let fail: (why: unknown) => void = () => undefined;
  const gone = new Promise<never>((_, reject) => {
    fail = reject;
  });
  gone.catch(() => undefined);
  let over = false;
  const giveUp = (why: unknown) => {
    if (over) return;
    over = true;
    ended();
    engine.stop();
    fail(why);
  };
  engine.onCrash(() => giveUp(new Error("the engine stopped")));
  return { engine, turn: Promise.resolve(), gone, giveUp };
}

function unavailable(failure: unknown) {
  const why = failure instanceof Error ? failure.message : String(failure);
  return {
    code: "engine_unavailable",
    message: `The arithmetic could not be loaded on this phone (${why}).`,
  };
}

/** The real worker, wrapped. A worker whose script cannot be read only says "error" on itself. */
function spawnWorker(): Engine {
  const worker = new Worker(new URL("./worker.ts", import.meta.url), { type: "module", name: "engine" });
  const remote: Remote<EngineApi> = wrap<EngineApi>(worker);
  let up: Promise<true> | undefined;
  return {
    // A text of ten years takes a while to hand over.
    callJson: (name, argsJson) =>
      new Promise((done, refuse) => inTurn(() => remote.callJson(name, argsJson).then(done, refuse))),
    ready: () => (up ??= remote.ready()),
    onCrash: (heard) => {
      worker.addEventListener("error", heard);
      worker.addEventListener("messageerror", heard);
    },
    stop: () => worker.terminate(),
  };
}

const client = createEngineClient(spawnWorker);

/** One call into the engine by name. Never rejects: trouble comes back as an error answer. */
export const call: EngineCall = client.call;

/** Lets the calls through; the worker is loaded at once, so that the first call finds it warm. */
export function startEngine(): void {
  client.start();
  void call("label.rate", { net_kg: 1, coverage_m2: 1 });
}
