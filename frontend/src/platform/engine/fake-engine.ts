/** For tests: an engine that gives its recorded answers, with the fields a test has it say instead. Typed as the real one. */
import { afterAll, afterEach } from "vitest";
import { type Given, staleIn } from "./fake-replay";
import { RECORDED } from "./recorded.gen";
import type { AnswerTo, Args, CallName, EngineCall, Refusal, Reply, Value } from "./types";

/** Fields laid over the recorded answer; or a whole answer, such as a refusal or one of the real engine. */
export type Said<N extends CallName> = Partial<Value<N>> | AnswerTo<N>;

/** What the engine of a test says, by call; a call that is not here may not be asked. */
export type Table = { readonly [N in CallName]?: Told<N> };

/** A table whose answers are the same whatever is asked. */
export type Settled = { readonly [N in CallName]?: Said<N> };

/** The same whatever is asked, or worked out from the arguments, at once or later. */
export type Told<N extends CallName> = Said<N> | ((args: Args<N>) => Said<N> | Promise<Said<N>>);

export type Asked = { [N in CallName]: { name: N; args: Args<N> } }[CallName];

export interface FakeEngine {
  /** Everything asked, in order. */
  asked: Asked[];
  /** The arguments of one call, each time it was asked. */
  askedOf: <N extends CallName>(name: N) => Args<N>[];
  call: EngineCall;
}

/** What was asked though no test had set it up: a model may swallow the refusal, so the test itself fails at its end. */
const unforeseen: string[] = [];

/** The names so far, each told once. */
export const notForeseen = (): string[] => unforeseen.splice(0);

afterEach(() => {
  const names = notForeseen();
  if (names.length)
    throw new Error(`This test gives no answer to ${names.join(", ")}, and yet it was asked.`);
});

/** What fakes of this file answered, to be asked of the engine itself at its end. */
const given: Given[] = [];

afterAll(async () => {
  if (!given.length) return;
  const { realEngine } = await import("./real-engine");
  const stale = staleIn(given, realEngine);
  if (stale.length) throw new Error(`Answers of fakes that the engine would not give:\n${stale.join("\n")}`);
});

export function fakeEngine(table: Table): FakeEngine {
  const asked: Asked[] = [];
  return {
    asked,
    askedOf: <N extends CallName>(name: N) =>
      asked.filter((one) => one.name === name).map(({ args }) => args as Args<N>),
    async call<N extends CallName>(name: N, args: Args<N>): Promise<AnswerTo<N>> {
      asked.push({ name, args } as Asked);
      const told = (table as Readonly<Record<string, unknown>>)[name] as Told<N> | undefined;
      if (told === undefined) return unset(name);
      const reply = answer(name, typeof told === "function" ? await told(args) : told);
      if (reply.value) given.push({ name, args: structuredClone(args), value: reply.value });
      return reply;
    },
  };
}

/** In place of `useEngine` on a page that is drawn: the answer is there at once. */
export function answersAtOnce(table: () => Settled) {
  return <N extends CallName>(
    name: N,
    args: Args<N> | null,
  ): { answer: AnswerTo<N> | undefined; busy: boolean } => {
    if (args === null) return { answer: undefined, busy: false };
    const said = (table() as Readonly<Record<string, unknown>>)[name] as Said<N> | undefined;
    return { answer: said === undefined ? unset(name) : answer(name, said), busy: false };
  };
}

function unset(name: CallName): never {
  unforeseen.push(name);
  throw new Error(`The test gives no answer to ${name}.`);
}

/** No answer has a field `error` or `working` of its own: what does is a whole reply. */
function answer<N extends CallName>(name: N, said: Said<N>): AnswerTo<N> {
  if ("error" in said || "working" in said) return said as AnswerTo<N>;
  return answers(name, said as Partial<Value<N>>);
}

/** A recorded answer of the engine, with what this test says of it. */
export const answers = <N extends CallName>(name: N, over: Partial<Value<N>> = {}): Reply<Value<N>> => ({
  value: { ...RECORDED[name], ...over },
  working: [],
  engine: "test",
});

export const refuses = (message: string): Refusal => ({ error: { code: "out_of_range", message } });
